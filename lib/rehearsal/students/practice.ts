import type { Student } from "./student.js";

/**
 * What practice has made of a student. Noise is A (1 + B kept) with kept = exp(-rate n) after n takes: exponential, as in `lib/forecast`. Days off bring
 * a share of the last day's gain back.
 */
export interface Practice {
  /** Share of the excess noise that is still there, from 1 down. */
  kept: number;
  /** The same when the day began. */
  keptAtDawn: number;
}

export function newPractice(): Practice {
  return { kept: 1, keptAtDawn: 1 };
}

/** One take more. */
export function practise(practice: Practice, keeps: number): void {
  practice.kept *= keeps;
}

/** A new day of practice, after so many days without any. */
export function beginDay(practice: Practice, { forgets }: Student, daysOff: number): void {
  practice.kept += Math.min(1, forgets * daysOff) * (practice.keptAtDawn - practice.kept);
  practice.keptAtDawn = practice.kept;
}

/** Noise now as a share of the noise before any practice. */
export function noiseShare({ excess }: Pick<Student, "excess">, kept: number): number {
  return (1 + excess * kept) / (1 + excess);
}
