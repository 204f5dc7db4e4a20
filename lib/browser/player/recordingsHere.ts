import { failure, type Result, success } from "../../base/index.js";
import { isSameRecording, type ReadyRecording, recordingsIn } from "../../recording/index.js";
import type { Score } from "../../schema/index.js";
import { browserProblem } from "../codes.js";
import { say } from "../say.js";

/**
 * Whether every recording that some scores play is there, so that nobody plays to a band that lacks one. Problem: RECORDING_NOT_HERE, once, however many are missing.
 *
 * @example
 * const here = recordingsHere([score], []);
 * if (!here.ok) console.log(here.problems[0].message); // a score of notes needs none
 */
export function recordingsHere(
  scores: readonly Score[],
  there: readonly Pick<ReadyRecording, "sha256" | "speed" | "semitones">[],
): Result<void> {
  const isThere = scores.flatMap(recordingsIn).every((need) => there.some((each) => isSameRecording(need, each)));
  if (isThere) return success(undefined);
  const message = say("browser.problem.recording-not-here");
  return failure(browserProblem("RECORDING_NOT_HERE", message, {}, say("browser.remedy.load-again")));
}
