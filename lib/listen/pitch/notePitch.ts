import { mcLeodPitch } from "./mcLeodPitch.js";

/** Seconds after an onset from which on a note has its pitch: attacks are noise, and the note before still rings; our choice. */
const SETTLES = 0.025;
/** Seconds of a note that are looked at, at most; our choice: pitch is told long before. */
const LONGEST = 0.3;
/** Seconds before an onset at which the note before it ends. */
const BEFORE_NEXT = 0.01;
/** Seconds before an onset that show what still rings. */
const BEFORE = BEFORE_NEXT + 1.2 * LONGEST;

/** The samples that tell the pitch of the note that begins `at` these seconds, when the `next` one begins, if any does. */
export function noteStretch(
  rate: number,
  at: number,
  next: number = Number.POSITIVE_INFINITY,
): { readonly from: number; readonly count: number } {
  const end = Math.min(at + SETTLES + LONGEST, next - BEFORE_NEXT);
  const from = Math.round((at - BEFORE) * rate);
  return { from, count: Math.max(1, Math.round(end * rate) - from) };
}

/** The pitch of a note from its `noteStretch`, as `findPitches` gives it. */
export function notePitch(rate: number): (samples: ArrayLike<number>) => number | undefined {
  const pitchIn = mcLeodPitch(rate);
  return (stretch) => {
    const samples = new Float64Array(stretch);
    const before = samples.subarray(0, Math.round((BEFORE - BEFORE_NEXT) * rate));
    return pitchIn(samples.subarray(Math.round((BEFORE + SETTLES) * rate)), before);
  };
}
