import { type Result, success } from "../../../base/index.js";
import type { ByteReader } from "../byteReader.js";
import { problem } from "../codes.js";
import type { Report } from "../recording.js";
import { say } from "../say.js";
import type { SoundBlock, SoundStream } from "../soundStream.js";
import { readWavHeader, type WavFormat, type WavHeader } from "./header.js";

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
  const held = count / header.rate;
  if (isUnfinished && count > 0)
    report(problem("RECORDING_CUT_SHORT", say("recording-problem.cut-short-unstated", { held })));
  else if (Number.isFinite(left) && left >= frame) {
    const stated = (count + left / frame) / header.rate;
    report(problem("RECORDING_CUT_SHORT", say("recording-problem.states-and-holds", { stated, held })));
  }
}

type Sample = (data: DataView, at: number) => number;

/** Samples of 8 bits are unsigned, wider ones signed; full scale is 1 (the convention of RIFF WAVE). */
const WHOLE: Readonly<Record<number, Sample>> = {
  1: (data, at) => (data.getUint8(at) - 128) / 128,
  2: (data, at) => data.getInt16(at, true) / 32_768,
  3: (data, at) => (data.getInt8(at + 2) * 65_536 + data.getUint16(at, true)) / 8_388_608,
  4: (data, at) => data.getInt32(at, true) / 2_147_483_648,
};
const FLOAT: Readonly<Record<number, Sample>> = {
  4: (data, at) => data.getFloat32(at, true),
  8: (data, at) => data.getFloat64(at, true),
};

/** Converts bytes, a whole number of frames, to samples by channel. */
function samplesIn(bytes: Uint8Array, { coding, channels, rate, width }: WavFormat): SoundBlock {
  const data = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const sample = (coding === "float" ? FLOAT : WHOLE)[width]!;
  const frame = channels * width;
  const count = bytes.length / frame;
  return {
    rate,
    channels: Array.from({ length: channels }, (_, channel) => {
      const samples = new Float32Array(count);
      for (let i = 0, at = channel * width; i < count; i++, at += frame) samples[i] = sample(data, at);
      return samples;
    }),
  };
}
