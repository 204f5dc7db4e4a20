import { type Milliseconds, milliseconds, type Problem, type Seconds, toMilliseconds } from "../base/index.js";
import { problem } from "./codes.js";
import { sayOfMeter } from "./say.js";

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
    const given = { slowest: SLOWEST_BEAT, found: inMs(beat) };
    const message = sayOfMeter("meter-problem.beat-slower-than-synchronisation", given);
    const remedy = sayOfMeter("meter-problem.beat-slower-than-synchronisation-remedy");
    found.push(problem("BEAT_SLOWER_THAN_SYNCHRONISATION", message, {}, remedy));
  }
  if (shortest !== undefined && toMilliseconds(shortest) < FASTEST_SUBDIVISION) {
    const given = { fastestEver: FASTEST_SUBDIVISION_EVER, fastest: FASTEST_SUBDIVISION, found: inMs(shortest) };
    const message = sayOfMeter("meter-problem.subdivision-faster-than-synchronisation", given);
    const remedy = sayOfMeter("meter-problem.subdivision-faster-than-synchronisation-remedy");
    found.push(problem("SUBDIVISION_FASTER_THAN_SYNCHRONISATION", message, {}, remedy));
  }
  return found;
}

function inMs(time: Seconds): number {
  return Math.round(toMilliseconds(time));
}
