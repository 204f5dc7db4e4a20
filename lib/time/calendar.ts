/** Whole days since 1 January 1970. */
export type Day = number;

/** A date in the proleptic Gregorian calendar (ISO 8601); `month` and `day` from 1. */
export interface CalendarDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/**
 * Whole days from 1 January 1970 to a date. A date that does not exist, such as 30 February, continues into the next month.
 *
 * Hinnant 2013, "chrono-compatible low-level date algorithms", days_from_civil (from memory; compared with the platform's calendar in the tests).
 */
export function dayNumber({ year, month, day }: CalendarDate): Day {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

/** The date this number of days (rounded down) after 1 January 1970: civil_from_days of the same source. */
export function dateOfDay(days: number): CalendarDate {
  const z = Math.floor(days) + 719468;
  const era = Math.floor(z / 146097);
  const dayOfEra = z - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const m = Math.floor((5 * dayOfYear + 2) / 153);
  const month = m < 10 ? m + 3 : m - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return { year, month, day: dayOfYear - Math.floor((153 * m + 2) / 5) + 1 };
}

const ISO_DATE = /^(\d{4})-(\d\d)-(\d\d)$/;

/** The day of an ISO 8601 calendar date such as "2026-03-12"; `undefined` for any other text and for dates that do not exist. */
export function dayOf(text: string): Day | undefined {
  const match = ISO_DATE.exec(text);
  if (match === null) return undefined;
  const [year, month, date] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const day = dayNumber({ year, month, day: date });
  // 30 February would be read as a day of March.
  return month >= 1 && month <= 12 && dateText(day) === text ? day : undefined;
}

/** The ISO 8601 date of a day. */
export function dateText(day: Day): string {
  const { year, month, day: date } = dateOfDay(day);
  return `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
}

/** The Monday on or before a day. 5 January 1970 was a Monday. */
export function mondayOf(days: number): Day {
  return Math.floor((Math.floor(days) - 4) / 7) * 7 + 4;
}
