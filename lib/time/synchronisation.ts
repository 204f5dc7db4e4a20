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

/** Longest beat with which people can synchronise: Repp 2006, Adv. Cogn. Psychol. 2, 163-181 (slow limit about 0.56 Hz; abstract). */
export const SLOWEST_BEAT: Milliseconds = milliseconds(1800);
/** Shortest interval with which most people can synchronise: Repp 2006, as above (fastest auditory rate 8 to 10 Hz, cautious end). */
export const FASTEST_SUBDIVISION: Milliseconds = milliseconds(125);
/** Shortest interval with which anybody is known to synchronise: Repp 2006, as above (other end of 8 to 10 Hz). */
export const FASTEST_SUBDIVISION_EVER: Milliseconds = milliseconds(100);
/** Shortest subdivision that helps to keep time; a shorter one makes it harder: Repp 2003, J. Mot. Behav. 35(4) 355-370 (abstract; the benefit becomes a cost at 200 to 250 ms). */
export const HELPFUL_SUBDIVISION: Milliseconds = milliseconds(250);

/** Advice when a beat is too long, or the shortest note too short, to synchronise with; otherwise empty. */
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
