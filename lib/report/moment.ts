import { dateText, dayOf } from "../plan/index.js";

const DAY_MS = 86_400_000;

/** The day of a journal's time, as the calendar where it was written had it; a day its month does not have runs on into the next. */
function dayAt(at: string): number {
  return dayOf(`${at.slice(0, 8)}01`)! + Number(at.slice(8, 10)) - 1;
}

/** Milliseconds from 1970 to a journal's time (RFC 3339), its offset from UTC taken off. */
export function instantOf(at: string): number {
  const [, hour, minute, second, sign, hours, minutes] = /T(\d\d):(\d\d):([\d.]+)(?:Z|([+-])(\d\d):(\d\d))$/.exec(at)!;
  const offset = sign === undefined ? 0 : (sign === "-" ? -1 : 1) * (Number(hours) * 60 + Number(minutes));
  return dayAt(at) * DAY_MS + (Number(hour) * 60 + Number(minute) - offset) * 60_000 + Number(second) * 1000;
}

/** Whole days from one time to another. */
export function daysBetween(from: string, to: string): number {
  return Math.floor((instantOf(to) - instantOf(from)) / DAY_MS);
}

/** The Monday of a journal's time, by the calendar where it was written; 5 January 1970 was one. */
export function weekOf(at: string): string {
  return dateText(Math.floor((dayAt(at) - 4) / 7) * 7 + 4);
}

/** The date of a journal's time, by the calendar where it was written. */
export function dateOf(at: string): string {
  return dateText(dayAt(at));
}
