const MINUTE = 60;
const HOUR = 3600;

/** Hundredths of a second: the precision that xAPI 1.0.3 asks for in section 4.6. */
const HUNDREDTHS = 100;

/**
 * A duration by ISO 8601, in hours, minutes and seconds to 0.01 s: "PT4H35M59.14S"; no time is "PT0S".
 *
 * Throws `RangeError` for negative seconds, and for numbers too large for hundredths.
 */
export function durationText(seconds: number): string {
  if (!(seconds >= 0 && seconds < Number.MAX_SAFE_INTEGER / HUNDREDTHS))
    throw new RangeError(`a duration is a number of seconds from 0, got ${seconds}`);
  const hundredths = Math.round(seconds * HUNDREDTHS);
  const whole = Math.floor(hundredths / HUNDREDTHS);
  const hours = Math.floor(whole / HOUR);
  const minutes = Math.floor((whole % HOUR) / MINUTE);
  const rest = (hundredths - (hours * HOUR + minutes * MINUTE) * HUNDREDTHS) / HUNDREDTHS;
  const parts = [hours > 0 ? `${hours}H` : "", minutes > 0 ? `${minutes}M` : "", rest > 0 ? `${rest}S` : ""].join("");
  return `PT${parts === "" ? "0S" : parts}`;
}
