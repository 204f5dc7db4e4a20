import { problemsOf } from "../base/index.js";
import { listenCodes } from "./codes.js";
import type { Problem } from "./problem.js";
import { sayProblem } from "./say.js";
import type { SoundTake } from "./soundTake.js";
import type { TakeClock } from "./takeClock.js";

const problem = problemsOf(listenCodes);

/** Above this the backing is louder than the player by so much that what is left of it passes for notes, dB: measured on rooms made up for it. */
const LOUD_BLEED = 3;
/** What the player should know of how a take was heard. */
export function soundTakeAdvice(
  { take, backing, bleedDb, others, undecidable }: SoundTake,
  { isAssumed }: Pick<TakeClock, "isAssumed">,
): readonly Problem[] {
  const advice: Problem[] = [];
  if (backing?.found === false) {
    const message = sayProblem("listen-problem.backing-not-heard");
    advice.push(problem("BACKING_NOT_HEARD", message, {}, sayProblem("listen-problem.backing-not-heard-remedy")));
  }
  if (isAssumed) {
    const message = sayProblem("listen-problem.recording-start-assumed");
    const remedy = sayProblem("listen-problem.recording-start-assumed-remedy");
    advice.push(problem("RECORDING_START_ASSUMED", message, {}, remedy));
  }
  if (backing?.found === true && backing.rival !== undefined) {
    const { start, rival } = backing;
    advice.push(problem("BACKING_PLACE_UNCLEAR", sayProblem("listen-problem.backing-place-unclear", { start, rival })));
  }
  if (bleedDb !== undefined && bleedDb > LOUD_BLEED) {
    const message = sayProblem("listen-problem.backing-too-loud", { decibels: bleedDb, most: LOUD_BLEED });
    advice.push(problem("BACKING_TOO_LOUD", message, {}, sayProblem("listen-problem.backing-too-loud-remedy")));
  }
  if (undecidable.length > 0) {
    const bars = [...new Set(undecidable.flatMap((stretch) => ("bars" in stretch ? (stretch.bars ?? []) : [])))];
    const times = undecidable.map(({ from }) => ({ key: "listen-problem.second", parameters: { second: from } }));
    const message =
      bars.length > 0
        ? sayProblem("listen-problem.backing-hides-notes", { bars: bars.map(String) })
        : sayProblem("listen-problem.backing-hides-notes-at", { times });
    advice.push(problem("BACKING_HIDES_NOTES", message, {}, sayProblem("listen-problem.backing-hides-notes-remedy")));
  }
  if (others > 0) {
    const message = sayProblem("listen-problem.other-sounds", { count: others });
    advice.push(problem("OTHER_SOUNDS", message, {}, sayProblem("listen-problem.other-sounds-remedy")));
  }
  if (take.onsets.length === 0)
    advice.push(problem("RECORDING_WITHOUT_NOTES", sayProblem("listen-problem.recording-without-notes")));
  return advice;
}
