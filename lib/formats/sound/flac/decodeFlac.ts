import { failure, notInstalled, success } from "../../../base/index.js";
import type { Result } from "../../problem.js";
import type { ByteReader } from "../byteReader.js";
import { problem } from "../codes.js";
import type { Report } from "../recording.js";
import { say } from "../say.js";
import type { SoundStream } from "../soundStream.js";
import { decodeFrames, type FlacFrame } from "./decodeFrames.js";
import { type FlacHeader, readFlacHeader } from "./header.js";

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
    const message = say("recording-problem.decoder-not-ours-bits", { bits: header.value.bits });
    return failure(problem("RECORDING_DECODER_MISSING", message));
  }
  const library = await import("libflacjs/dist/libflac.js").catch(notInstalled);
  if (library === undefined) {
    const message = say("recording-problem.decoder-missing", { format: "FLAC" });
    const remedy = say("recording-problem.decoder-missing-remedy", { command: "npm install libflacjs" });
    return failure(problem("RECORDING_DECODER_MISSING", message, {}, remedy));
  }
  const frames = decodeFrames(reader, header.value, library.default);
  return success(placed(frames, header.value, report));
}

async function* placed(frames: AsyncIterable<FlacFrame>, header: FlacHeader, report: Report): SoundStream {
  const { rate, total } = header;
  const seconds = (samples: number): number => samples / rate;
  const holes: { readonly at: number; readonly length: number }[] = [];
  let at = 0;
  for await (const { start, channels } of frames) {
    if (start < at) continue;
    if (start - at > LONGEST_HOLE * rate) {
      const message = say("recording-problem.times-lost-hole", { at: seconds(at), hole: seconds(start - at) });
      report(problem("RECORDING_TIMES_LOST", message, {}, say("recording-problem.send-again")));
      return;
    }
    if (start > at) holes.push({ at, length: start - at });
    for (; at < start; at += Math.min(PORTION, start - at)) yield silence(header, Math.min(PORTION, start - at));
    yield { rate, channels };
    at = start + channels[0]!.length;
  }
  if (holes.length > 0) {
    const all = holes.reduce((sum, { length }) => sum + length, 0);
    const given = { count: holes.length, all: seconds(all), first: seconds(holes[0]!.at) };
    const message = say("recording-problem.damaged", given);
    report(problem("RECORDING_DAMAGED", message, {}, say("recording-problem.damaged-remedy")));
  }
  if (total !== undefined && at < total) {
    const given = { stated: seconds(total), held: seconds(at) };
    report(problem("RECORDING_CUT_SHORT", say("recording-problem.states-and-holds", given)));
  }
}

function silence({ rate, channels }: FlacHeader, length: number) {
  return { rate, channels: Array.from({ length: channels }, () => new Float32Array(length)) };
}
