import { failure, notInstalled, success } from "../../../base/index.js";
import type { Problem, Result } from "../../problem.js";
import type { ByteReader } from "../byteReader.js";
import { problem } from "../codes.js";
import type { Report } from "../recording.js";
import { say } from "../say.js";
import type { SoundStream } from "../soundStream.js";
import { trimmed } from "../trim.js";
import { decodeFrames, type Mp3Tally } from "./decodeFrames.js";
import type { Mp3Frame } from "./frameHeader.js";
import { framesOf, type Mp3Piece } from "./frameSync.js";
import { DECODER_DELAY, infoIn, type Mp3Info, USUAL_DELAY } from "./infoTag.js";

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
    return failure(problem("RECORDING_FORMAT_UNKNOWN", say("recording-problem.format-unknown-without-frame")));
  const library = await import("mpg123-decoder").catch(notInstalled);
  if (library === undefined) {
    const message = say("recording-problem.decoder-missing", { format: "MP3" });
    const command = "npm install mpg123-decoder";
    const remedy = say("recording-problem.decoder-missing-remedy-flac", { command });
    return failure(problem("RECORDING_DECODER_MISSING", message, {}, remedy));
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
  const message = say("recording-problem.start-unstated", { ms, most });
  return problem("RECORDING_START_UNSTATED", message, {}, say("recording-problem.start-unstated-remedy"));
}

/** Reports damage, and differences between the decoded frames and those stated in the file. */
function conclude(tally: Mp3Tally, { rate, samples }: Mp3Frame, info: Mp3Info | undefined, report: Report): void {
  const seconds = (frames: number): number => (frames * samples) / rate;
  if (tally.lost.length > 0) {
    const given = { count: tally.lost.length, all: seconds(tally.silenced), first: seconds(tally.lost[0]!) };
    const message = say("recording-problem.damaged", given);
    report(problem("RECORDING_DAMAGED", message, {}, say("recording-problem.damaged-remedy")));
  }
  const stated = info?.frames;
  if (stated === undefined) {
    if (tally.tail > 0)
      report(problem("RECORDING_CUT_SHORT", say("recording-problem.cut-short-bytes", { bytes: tally.tail })));
  } else if (tally.frames < stated) {
    // The missing frames may lie in a gap, whose length is an estimate: then the times after it are uncertain.
    const given = { stated: seconds(stated), held: seconds(tally.frames) };
    const message = say("recording-problem.states-and-holds", given);
    const isCut = tally.lost.length === 0 || tally.tail > 0;
    const code = isCut ? "RECORDING_CUT_SHORT" : "RECORDING_TIMES_LOST";
    report(problem(code, message, {}, say("recording-problem.record-or-send-again")));
  }
}
