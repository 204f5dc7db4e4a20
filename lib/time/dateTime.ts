import { type Day, dayNumber } from "./calendar.js";

const DAY_MS = 86_400_000;
const DATE_TIME = /^(\d{4})-(\d\d)-(\d\d)[Tt](\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?(?:[Zz]|([+-])(\d\d):(\d\d))?$/;

/** A date and time as it was written. */
interface Written {
  /** Milliseconds from 1 January 1970 to what the clock on the wall showed. */
  readonly shown: number;
  /** Milliseconds by which that clock was ahead of UTC. */
  readonly ahead: number;
}

function readDateTime(text: string): Written | undefined {
  const match = DATE_TIME.exec(text);
  if (match === null) return undefined;
  const [year, month, day, hour, minute, second] = match.slice(1, 7).map((part) => Number(part ?? 0)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const [sign, hours, minutes] = [match[7] === "-" ? -1 : 1, Number(match[8] ?? 0), Number(match[9] ?? 0)];
  return {
    shown: dayNumber({ year, month, day }) * DAY_MS + (60 * hour + minute) * 60_000 + second * 1000,
    ahead: sign * (60 * hours + minutes) * 60_000,
  };
}

/**
 * Days from 1 January 1970 to the moment an RFC 3339 text tells, as the clock on the wall showed it: an evening belongs to its own date
 * wherever it was. A day its month does not have runs on into the next; NaN for another text.
 */
export function daysOf(text: string): number {
  return (readDateTime(text)?.shown ?? Number.NaN) / DAY_MS;
}

/** The day of a journal's time (RFC 3339), as the calendar on the wall had it where it was written; NaN for another text. */
export function dayOfTime(at: string): Day {
  return Math.floor(daysOf(at));
}

/** Milliseconds from 1970 to a time (RFC 3339), its offset from UTC taken off; NaN for another text. */
export function instantOf(at: string): number {
  const read = readDateTime(at);
  return read === undefined ? Number.NaN : read.shown - read.ahead;
}

/** RFC 3339 as journals have it: seconds and an offset are required, T and Z are capitals, at most nine decimals. */
const TIMESTAMP =
  /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d:(?:[0-5]\d|60)(?:\.\d{1,9})?(?:Z|[+-](?:[01]\d|2[0-3]):[0-5]\d)$/;

/** Whether a text is a timestamp of a journal, such as "2026-03-02T17:30:00Z": RFC 3339 with seconds, offset, capital T and Z. */
export function isTimestamp(text: string): boolean {
  return TIMESTAMP.test(text);
}
