import { failure, ifInstalled, problemsOf, type Result, success } from "../../../base/index.js";
import type { ByteReader } from "../byteReader.js";
import { recordingCodes } from "../codes.js";
import type { Report } from "../recording.js";
import type { SoundStream } from "../soundStream.js";
import { decodeFrames, type FlacFrame } from "./decodeFrames.js";
import { type FlacHeader, readFlacHeader } from "./header.js";

const problem = problemsOf(recordingCodes);

/** Sample widths, in bits, that the decoder returns correctly (other widths were found to be garbled). */
const WIDTHS = [16, 24];
/** Longest gap that is filled with silence, seconds; our choice: a longer one separates two recordings. */
const LONGEST_HOLE = 60;
/** Samples in a block of silence. */
const PORTION = 16_384;

/**
 * Decodes a FLAC file with the optional package `libflacjs`. Frames state their position, so a stretch that cannot be decoded becomes silence of
 * exactly its length.
 *
 * Problems: RECORDING_HEADER_BROKEN, RECORDING_DECODER_MISSING; while it is read RECORDING_CUT_SHORT, RECORDING_DAMAGED, RECORDING_TIMES_LOST.
 */
export async function decodeFlac(reader: ByteReader, report: Report): Promise<Result<SoundStream>> {
  const header = await readFlacHeader(reader);
  if (!header.ok) return header;
  if (!WIDTHS.includes(header.value.bits)) {
    const message = `FLAC with samples of ${header.value.bits} bits needs a decoder that is not part of leeway`;
    return failure(problem("RECORDING_DECODER_MISSING", message));
  }
  const library = await ifInstalled(() => import("libflacjs/dist/libflac.js"));
  if (library === undefined) {
    const message = "FLAC needs a decoder that is not installed";
    return failure(problem("RECORDING_DECODER_MISSING", message, {}, "npm install libflacjs, or save it as WAV"));
  }
  const frames = decodeFrames(reader, header.value, library.default);
  return success(placed(frames, header.value, report));
}

async function* placed(frames: AsyncIterable<FlacFrame>, header: FlacHeader, report: Report): SoundStream {
  const { rate, total } = header;
  const seconds = (samples: number): string => `${(samples / rate).toFixed(2)} s`;
  const holes: { readonly at: number; readonly length: number }[] = [];
  let at = 0;
  for await (const { start, channels } of frames) {
    if (start < at) continue;
    if (start - at > LONGEST_HOLE * rate) {
      const message = `after ${seconds(at)} there is a hole of ${seconds(start - at)}, and what follows is left out`;
      report(problem("RECORDING_TIMES_LOST", message, {}, "send the file again, or record it again"));
      return;
    }
    if (start > at) holes.push({ at, length: start - at });
    for (; at < start; at += Math.min(PORTION, start - at)) yield silence(header, Math.min(PORTION, start - at));
    yield { rate, channels };
    at = start + channels[0]!.length;
  }
  if (holes.length > 0) {
    const all = holes.reduce((sum, { length }) => sum + length, 0);
    const message = `${holes.length} stretches, ${seconds(all)} in all and the first at ${seconds(holes[0]!.at)}, cannot be decoded and count as silence`;
    report(problem("RECORDING_DAMAGED", message, {}, "record it again if notes were played there"));
  }
  if (total !== undefined && at < total)
    report(problem("RECORDING_CUT_SHORT", `it states ${seconds(total)} of sound and holds ${seconds(at)}`));
}

function silence({ rate, channels }: FlacHeader, length: number) {
  return { rate, channels: Array.from({ length: channels }, () => new Float32Array(length)) };
}
