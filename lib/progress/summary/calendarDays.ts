import { dateText, dayOfTime, instantOf, mondayOf } from "../../time/index.js";

const DAY_MS = 86_400_000;

/** Whole days of 24 hours from one time (RFC 3339) to another. */
export function daysBetween(from: string, to: string): number {
  return Math.floor((instantOf(to) - instantOf(from)) / DAY_MS);
}

/** Date of the Monday on or before a time (RFC 3339), in the offset the time is written with. */
export function weekOf(at: string): string {
  return dateText(mondayOf(dayOfTime(at)));
}

/** Date of a time (RFC 3339), in the offset it is written with. */
export function dateOf(at: string): string {
  return dateText(dayOfTime(at));
}
