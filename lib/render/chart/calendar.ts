import { dateOfDay, dayNumber } from "../../time/index.js";

/**
 * Days from 1 January 1970 to the moment an RFC 3339 text tells, as the clock on the wall showed it: an evening belongs to its own date
 * wherever it was. NaN for another text.
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
  return dayNumber({ year, month, day }) + (hour + (minute + second / 60) / 60) / 24;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** "2 Mar". */
export function dayText(days: number): string {
  const { month, day } = dateOfDay(days);
  return `${day} ${MONTHS[month - 1]}`;
}

/** "2 Mar 2026". */
export function dateText(days: number): string {
  return `${dayText(days)} ${dateOfDay(days).year}`;
}

/** The Monday on or before a day; 5 January 1970 was one. */
export function mondayOf(days: number): number {
  return Math.floor((Math.floor(days) - 4) / 7) * 7 + 4;
}
