import { failure, ifInstalled, type Problem, problemsOf, type Result, success } from "../../../base/index.js";
import type { ByteReader } from "../byteReader.js";
import { recordingCodes } from "../codes.js";
import type { Report } from "../recording.js";
import type { SoundStream } from "../soundStream.js";
import { trimmed } from "../trim.js";
import { decodeFrames, type Mp3Tally } from "./decodeFrames.js";
import type { Mp3Frame } from "./frameHeader.js";
import { framesOf, type Mp3Piece } from "./frameSync.js";
import { DECODER_DELAY, infoIn, type Mp3Info, USUAL_DELAY } from "./infoTag.js";

const problem = problemsOf(recordingCodes);

/**
 * Decodes an MP3 file with the optional package `mpg123-decoder`, without the silence that encoder and decoder add before the sound. Stretches that
 * cannot be decoded become silence of the same length.
 *
 * Problems: RECORDING_FORMAT_UNKNOWN, RECORDING_DECODER_MISSING without the package; while it is read RECORDING_START_UNSTATED, RECORDING_CUT_SHORT, RECORDING_DAMAGED, RECORDING_TIMES_LOST.
 */
export async function decodeMp3(reader: ByteReader, report: Report): Promise<Result<SoundStream>> {
  const pieces = framesOf(reader);
  let first = await pieces.next();
  // Bytes before the first frame are not part of the recording.
  if (first.done !== true && "lost" in first.value) first = await pieces.next();
  if (first.done === true || "lost" in first.value)
    return failure(problem("RECORDING_FORMAT_UNKNOWN", "it is named or begins as MP3, and holds no frame of it"));
  const library = await ifInstalled(() => import("mpg123-decoder"));
  if (library === undefined) {
    const message = "MP3 needs a decoder that is not installed";
    return failure(
      problem("RECORDING_DECODER_MISSING", message, {}, "npm install mpg123-decoder, or save it as WAV or FLAC"),
    );
  }
  const { frame, bytes } = first.value;
  const info = infoIn(bytes, frame);
  const added = info?.added;
  if (added === undefined) report(startUnstated(frame));
  const before = (added?.before ?? USUAL_DELAY) + DECODER_DELAY;
  const behind = added === undefined ? 0 : Math.max(0, added.behind - DECODER_DELAY);
  const tally: Mp3Tally = { frames: 0, silenced: 0, lost: [], tail: 0 };
  const sound = decodeFrames(info === undefined ? chained(first.value, pieces) : pieces, {
    kind: frame,
    tally,
    Decoder: library.MPEGDecoder,
  });
  return success(ended(trimmed(sound, { before, behind }), () => conclude(tally, frame, info, report)));
}

async function* chained(first: Mp3Piece, rest: AsyncIterable<Mp3Piece>): AsyncGenerator<Mp3Piece> {
  yield first;
  yield* rest;
}

async function* ended(sound: SoundStream, conclusion: () => void): SoundStream {
  yield* sound;
  conclusion();
}

/** The problem of an MP3 file that does not state the silence before its sound. */
export function startUnstated({ rate }: Mp3Frame): Problem {
  const [ms, most] = [(1000 * (USUAL_DELAY + DECODER_DELAY)) / rate, (1000 * 1152) / rate];
  const message = `it does not say how much silence precedes the sound; ${ms.toFixed(1)} ms are taken off, which may be wrong by up to ${most.toFixed(0)} ms for all notes alike`;
  return problem(
    "RECORDING_START_UNSTATED",
    message,
    {},
    "leave the latency of the recording untold, or record as WAV",
  );
}

/** Reports damage, and differences between the decoded frames and those stated in the file. */
function conclude(tally: Mp3Tally, { rate, samples }: Mp3Frame, info: Mp3Info | undefined, report: Report): void {
  const seconds = (frames: number): string => `${((frames * samples) / rate).toFixed(2)} s`;
  if (tally.lost.length > 0) {
    const message = `${tally.lost.length} stretches, ${seconds(tally.silenced)} in all and the first at ${seconds(tally.lost[0]!)}, cannot be decoded and count as silence`;
    report(problem("RECORDING_DAMAGED", message, {}, "record it again if notes were played there"));
  }
  const stated = info?.frames;
  if (stated === undefined) {
    if (tally.tail > 0) report(problem("RECORDING_CUT_SHORT", `its last ${tally.tail} bytes are no sound`));
  } else if (tally.frames < stated) {
    // The missing frames may lie in a gap, whose length is an estimate: then the times after it are uncertain.
    const message = `it states ${seconds(stated)} of sound and holds ${seconds(tally.frames)}`;
    const isCut = tally.lost.length === 0 || tally.tail > 0;
    report(problem(isCut ? "RECORDING_CUT_SHORT" : "RECORDING_TIMES_LOST", message, {}, "record or send it again"));
  }
}
