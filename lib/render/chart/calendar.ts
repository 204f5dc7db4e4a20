/**
 * Days from 1 January 1970 to the moment an RFC 3339 text tells, as the clock on the wall showed it: an evening belongs to its own date
 * wherever it was. NaN for another text.
 *
 * Days of a date in the proleptic Gregorian calendar: Hinnant 2013, "chrono-compatible low-level date algorithms", days_from_civil (from
 * memory; checked against the platform's calendar in the tests).
 */
export function daysOf(text: string): number {
  const match = /^(\d{4})-(\d\d)-(\d\d)[Tt](\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?/.exec(text);
  if (!match) return Number.NaN;
  const [year, month, day, hour, minute, second] = match.slice(1).map((part) => Number(part ?? 0)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468 + (hour + (minute + second / 60) / 60) / 24;
}

export interface CalendarDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** The date so many whole days after 1 January 1970: civil_from_days of the same source. */
export function dateOf(days: number): CalendarDate {
  const z = Math.floor(days) + 719468;
  const era = Math.floor(z / 146097);
  const dayOfEra = z - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const m = Math.floor((5 * dayOfYear + 2) / 153);
  const month = m < 10 ? m + 3 : m - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * m + 2) / 5) + 1,
  };
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** "2 Mar". */
export function dayText(days: number): string {
  const { month, day } = dateOf(days);
  return `${day} ${MONTHS[month - 1]}`;
}

/** "2 Mar 2026". */
export function dateText(days: number): string {
  return `${dayText(days)} ${dateOf(days).year}`;
}

/** The Monday on or before a day; 5 January 1970 was one. */
export function mondayOf(days: number): number {
  return Math.floor((Math.floor(days) - 4) / 7) * 7 + 4;
}
