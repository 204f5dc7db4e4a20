const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/**
 * A time of a journal as a record has it; `undefined` when its day is in no calendar, such as 30 February (RFC 3339, section 5.7). An offset that
 * is not known, written -00:00, is not allowed in records: the instant is the same in UTC.
 */
export function recordTime(at: string): string | undefined {
  const [year, month, day] = at.slice(0, 10).split("-").map(Number) as [number, number, number];
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 && isLeap ? 29 : DAYS[month - 1]!;
  return day > days ? undefined : at.replace(/-00:00$/, "Z");
}
