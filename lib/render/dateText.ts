import { dateOfDay } from "../time/index.js";
import type { Words } from "../words/index.js";

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

type Say = Pick<Words<"report">, "say">;

/** The day and month of a day (days since 1 January 1970): "2 Mar". */
export function dayText(days: number, words: Say): string {
  const { day, month } = partsOf(days, words);
  return words.say("report.day", { day, month });
}

/** The same with the year: "2 Mar 2026". */
export function fullDateText(days: number, words: Say): string {
  return words.say("report.date", partsOf(days, words));
}

function partsOf(days: number, { say }: Say): { readonly day: string; readonly month: string; readonly year: string } {
  const { year, month, day } = dateOfDay(days);
  return { day: `${day}`, month: say("report.month", { month: MONTHS[month - 1]! }), year: `${year}` };
}
