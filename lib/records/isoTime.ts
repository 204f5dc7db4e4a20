const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/**
 * Timestamp of a record for a time of a journal (both RFC 3339); `undefined` when its day is in no calendar, such as 30 February (RFC 3339,
 * section 5.7). An unknown offset, written -00:00, is not allowed in records: the instant is the same in UTC.
 */
export function recordTime(at: string): string | undefined {
  const [year, month, day] = at.slice(0, 10).split("-").map(Number) as [number, number, number];
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 && isLeap ? 29 : DAYS[month - 1]!;
  return day > days ? undefined : at.replace(/-00:00$/, "Z");
}

/** Hundredths of a second: the precision that xAPI asks for in section 4.6. */
const HUNDREDTHS = 100;

/** A duration by ISO 8601, in seconds to 0.01 s: "PT51.43S". Throws `RangeError` for one below 0 or without end. */
export function durationText(seconds: number): string {
  if (!(seconds >= 0 && seconds < Number.MAX_SAFE_INTEGER / HUNDREDTHS))
    throw new RangeError(`a duration is a number of seconds from 0, got ${seconds}`);
  const whole = Math.round(seconds * HUNDREDTHS);
  const rest = whole % HUNDREDTHS;
  const decimals = rest === 0 ? "" : `.${String(rest).padStart(2, "0").replace(/0$/, "")}`;
  return `PT${Math.floor(whole / HUNDREDTHS)}${decimals}S`;
}
