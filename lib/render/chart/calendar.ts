import { dateOfDay } from "../../time/index.js";

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** "2 Mar". */
export function dayText(days: number): string {
  const { month, day } = dateOfDay(days);
  return `${day} ${MONTHS[month - 1]}`;
}

/** "2 Mar 2026". */
export function fullDateText(days: number): string {
  return `${dayText(days)} ${dateOfDay(days).year}`;
}
