import type { Words } from "../../words/index.js";

/** A day for people, in the calendar of this machine: "2 Mar 2026". `at` is a time (RFC 3339) or a date. */
export function dateText(at: string, { language }: Words): string {
  // A date without a time is a day here, and not one in Greenwich.
  const time = new Date(at.length === 10 ? `${at}T12:00` : at);
  return new Intl.DateTimeFormat(language, { dateStyle: "medium" }).format(time);
}
