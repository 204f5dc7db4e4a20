import { isOn, type LagLine, windowsOf } from "./lagLine.js";
import { type Sounds, windowLags } from "./windowLags.js";

/** Windows in a stretch that only one of two lines explains. Our choice: an odd number gives a clear majority. */
const LOOKS = 3;
/** Seconds of a stretch at least, so that a window fits in. */
const SHORTEST = 2;

/**
 * Seconds of the recording that one line explains more than another. Only stretches that one of the two lines covers count: for it where the
 * backing is heard as the line says, against it where it is not.
 *
 * Music that repeats fits as well a repeat earlier or later, except in such stretches at its ends.
 */
export function advantage(one: LagLine, other: LagLine, sounds: Sounds): number {
  return explained(one, other, sounds) - explained(other, one, sounds);
}

/** Seconds that a line explains outside the span of another line, less the seconds in which the backing is not heard there. */
export function explained(line: LagLine, beside: LagLine, sounds: Sounds): number {
  const [begin, end] = [Math.max(0, line.start), endOf(line, sounds)];
  const [first, last] = [Math.max(0, beside.start), endOf(beside, sounds)];
  return (
    explainedIn(line, [begin, Math.min(end, first)], sounds) + explainedIn(line, [Math.max(begin, last), end], sounds)
  );
}

function endOf({ start }: LagLine, { recording, backing }: Sounds): number {
  return Math.min(recording.seconds, start + backing.seconds);
}

function explainedIn(line: LagLine, [from, to]: readonly [number, number], sounds: Sounds): number {
  if (to - from < SHORTEST) return 0;
  const [begin, end] = [from - line.start, to - line.start];
  const lags = windowLags(line.start, { ...sounds, most: LOOKS, skew: line.skew, from: begin, to: end });
  // Where the backing is silent nothing can be heard of it.
  if (lags.length === 0) return 0;
  const windows = windowsOf(lags);
  const heard = windowsOf(lags.filter((lag) => isOn(line, lag)));
  return ((to - from) * (2 * heard - windows)) / windows;
}
