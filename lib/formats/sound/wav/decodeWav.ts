import { problemsOf, type Result, success } from "../../../base/index.js";
import type { ByteReader } from "../byteReader.js";
import { recordingCodes } from "../codes.js";
import type { Report } from "../recording.js";
import type { SoundStream } from "../soundStream.js";
import { readWavHeader, type WavHeader } from "./header.js";
import { samplesIn } from "./samples.js";

const problem = problemsOf(recordingCodes);

/** Frames decoded at a time; our choice. */
const PORTION = 16_384;

/** Decodes a WAV file. Problems as `readWavHeader`; RECORDING_CUT_SHORT during decoding. */
export async function decodeWav(reader: ByteReader, report: Report): Promise<Result<SoundStream>> {
  const header = await readWavHeader(reader);
  return header.ok ? success(samplesOf(reader, header.value, report)) : header;
}

async function* samplesOf(reader: ByteReader, header: WavHeader, report: Report): SoundStream {
  const frame = header.channels * header.width;
  // A recorder that was switched off leaves size 0, or an earlier size.
  const isUnfinished = header.size === 0;
  let left = header.size === undefined || isUnfinished ? Number.POSITIVE_INFINITY : header.size;
  let count = 0;
  while (left >= frame) {
    const there = await reader.fill(Math.min(PORTION * frame, left));
    const frames = Math.floor(Math.min(there, left, PORTION * frame) / frame);
    if (frames === 0) break;
    yield samplesIn(reader.take(frames * frame), header);
    left -= frames * frame;
    count += frames;
  }
  const seconds = (frames: number): string => `${(frames / header.rate).toFixed(2)} s`;
  if (isUnfinished && count > 0)
    report(problem("RECORDING_CUT_SHORT", `it states no sound, but ${seconds(count)} follow, and are listened to`));
  else if (Number.isFinite(left) && left >= frame)
    report(
      problem("RECORDING_CUT_SHORT", `it states ${seconds(count + left / frame)} of sound and holds ${seconds(count)}`),
    );
}
