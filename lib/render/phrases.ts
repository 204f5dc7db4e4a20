import { settingsWords as wordsOfSettings } from "../drill/index.js";
import { dateOfDay } from "../time/index.js";

/** A blank at which no line breaks. */
export const HARD_BLANK = "\u00a0";

/** "dropout=1/2 bar,tempo=96" as "dropout 1/2 bar, tempo 96", with no line end between a name and its value. */
export function settingsWords(rung: string): string {
  return wordsOfSettings(rung, HARD_BLANK);
}

/** "kit", "kit and bass", "kit, bass and lead". */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** "1 rung", "12 rungs". */
export function counted(count: number, one: string, many: string = `${one}s`): string {
  return `${grouped(count)}${HARD_BLANK}${count === 1 ? one : many}`;
}

/** A whole number with its thousands set apart: "1 000 000". */
export function grouped(count: number): string {
  return `${count}`.replaceAll(/\B(?=(?:\d{3})+$)/g, HARD_BLANK);
}

/** The text with its first letter as a capital. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** The day and month of a day (days since 1 January 1970): "2 Mar". */
export function dayText(days: number): string {
  const { month, day } = dateOfDay(days);
  return `${day} ${MONTHS[month - 1]}`;
}

/** The same with the year: "2 Mar 2026". */
export function fullDateText(days: number): string {
  return `${dayText(days)} ${dateOfDay(days).year}`;
}
