import { dateOfDay, dayNumber } from "../time/index.js";

/** Whole days since 1 January 1970. */
export type Day = number;

const ISO_DATE = /^(\d{4})-(\d\d)-(\d\d)$/;

/** The day of an ISO 8601 calendar date such as "2026-03-12"; `undefined` for any other text and for dates there are not. */
export function dayOf(text: string): Day | undefined {
  const match = ISO_DATE.exec(text);
  if (match === null) return undefined;
  const [year, month, date] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const day = dayNumber({ year, month, day: date });
  // 30 February would come out as a day of March.
  return month >= 1 && month <= 12 && dateText(day) === text ? day : undefined;
}

/** The ISO 8601 date of a day. */
export function dateText(day: Day): string {
  const { year, month, day: date } = dateOfDay(day);
  return `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
}

/** The day of a journal's time (RFC 3339), as the calendar on the wall had it where it was written. */
export function dayOfTime(at: string): Day | undefined {
  return dayOf(at.slice(0, 10));
}
