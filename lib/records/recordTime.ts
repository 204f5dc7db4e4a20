import { dateOfDay, dayNumber } from "../time/index.js";

/**
 * Timestamp of a record for a time of a journal (both RFC 3339); `undefined` for a date that does not exist, such as 30 February (RFC 3339,
 * section 5.7). An unknown offset, written -00:00, is not allowed in records: the instant is the same in UTC.
 */
export function recordTime(at: string): string | undefined {
  const [year, month, day] = at.slice(0, 10).split("-").map(Number) as [number, number, number];
  return dateOfDay(dayNumber({ year, month, day })).day === day ? at.replace(/-00:00$/, "Z") : undefined;
}
