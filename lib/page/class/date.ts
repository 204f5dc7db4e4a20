import type { Words } from "../../words/index.js";

const MONTHS = [
  "january",
  "february",
  "march",
  "april",
  "may",
  "june",
  "july",
  "august",
  "september",
  "october",
  "november",
  "december",
] as const;

/** A day for people, as in reports, in the calendar of this machine: "2 Mar 2026". `at` is a time (RFC 3339) or a date. */
export function dateText(at: string, { say }: Words): string {
  // A date without a time is a day here, and not one in Greenwich.
  const day = new Date(at.length === 10 ? `${at}T12:00` : at);
  const month = say("report.month", { month: MONTHS[day.getMonth()]! });
  return say("report.date", { day: `${day.getDate()}`, month, year: `${day.getFullYear()}` });
}
