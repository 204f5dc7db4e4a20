import { type Day, dayNumber } from "./calendar.js";

const DAY_MS = 86_400_000;
const DATE_TIME = /^(\d{4})-(\d\d)-(\d\d)[Tt](\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?(?:[Zz]|([+-])(\d\d):(\d\d))?$/;

/** A date and time as it was written. */
interface Written {
  /** Local time: milliseconds from 1 January 1970 to the written date and time, without the offset. */
  readonly shown: number;
  /** Offset of local time from UTC in milliseconds; positive means ahead. */
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
 * Days from 1 January 1970 to an RFC 3339 time, in the local time of the text, so that an evening belongs to its local date. A day that its month
 * does not have continues into the next month. NaN for any other text.
 */
export function daysOf(text: string): number {
  return (readDateTime(text)?.shown ?? Number.NaN) / DAY_MS;
}

/** The local day of an RFC 3339 time; NaN for any other text. */
export function dayOfTime(at: string): Day {
  return Math.floor(daysOf(at));
}

/** Milliseconds from 1 January 1970 UTC to an RFC 3339 time; NaN for any other text. */
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
