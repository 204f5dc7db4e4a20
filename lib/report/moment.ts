import { dateText, dayOfTime, instantOf, mondayOf } from "../time/index.js";

const DAY_MS = 86_400_000;

/** Whole days from one time to another. */
export function daysBetween(from: string, to: string): number {
  return Math.floor((instantOf(to) - instantOf(from)) / DAY_MS);
}

/** The Monday of a journal's time, by the calendar where it was written. */
export function weekOf(at: string): string {
  return dateText(mondayOf(dayOfTime(at)));
}

/** The date of a journal's time, by the calendar where it was written. */
export function dateOf(at: string): string {
  return dateText(dayOfTime(at));
}
