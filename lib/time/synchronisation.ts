import {
  type Milliseconds,
  milliseconds,
  type Problem,
  problemsOf,
  type Seconds,
  toMilliseconds,
} from "../base/index.js";
import { timeCodes } from "./codes.js";

const problem = problemsOf(timeCodes);

/** Beats further apart than this are no longer synchronised with: Repp 2006, Adv. Cogn. Psychol. 2, 163-181 (slow limit about 0.56 Hz; abstract). */
export const SLOWEST_BEAT: Milliseconds = milliseconds(1800);
/** Few people keep time with sounds closer than this: Repp 2006, as above (fastest auditory rate 8 to 10 Hz, cautious end). */
export const FASTEST_SUBDIVISION: Milliseconds = milliseconds(125);
/** Nobody is known to keep time with sounds closer than this: Repp 2006, as above (other end of 8 to 10 Hz). */
export const FASTEST_SUBDIVISION_EVER: Milliseconds = milliseconds(100);
/** Counting subdivisions helps from here on and costs below: Repp 2003, J. Mot. Behav. 35(4) 355-370 (abstract; turns into a cost at 200 to 250 ms). */
export const HELPFUL_SUBDIVISION: Milliseconds = milliseconds(250);

/** Advice where a beat is too slow, or the shortest note too fast, to keep time with; empty when neither. */
export function synchronisationProblems(beat: Seconds, shortest?: Seconds): readonly Problem[] {
  const found: Problem[] = [];
  if (toMilliseconds(beat) > SLOWEST_BEAT) {
    const message = `people keep time with beats up to ${SLOWEST_BEAT} ms apart; here they are ${inMs(beat)} ms apart`;
    found.push(problem("BEAT_SLOWER_THAN_SYNCHRONISATION", message, {}, "count a shorter beat, or raise the tempo"));
  }
  if (shortest !== undefined && toMilliseconds(shortest) < FASTEST_SUBDIVISION) {
    const message = `people keep time with notes from ${FASTEST_SUBDIVISION_EVER} to ${FASTEST_SUBDIVISION} ms apart at the fastest; here they are ${inMs(shortest)} ms apart`;
    found.push(
      problem("SUBDIVISION_FASTER_THAN_SYNCHRONISATION", message, {}, "lower the tempo, or write fewer notes"),
    );
  }
  return found;
}

function inMs(time: Seconds): number {
  return Math.round(toMilliseconds(time));
}
