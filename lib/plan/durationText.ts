const MINUTE = 60;
const HOUR = 3600;

/**
 * A duration by ISO 8601, in hours, minutes and seconds to the hundredth: "PT4H35M59.14S"; no time is "PT0S".
 *
 * Throws `RangeError` for negative seconds and for what is no finite number.
 */
export function durationText(seconds: number): string {
  if (!(Number.isFinite(seconds) && seconds >= 0))
    throw new RangeError(`a length of time is 0 s or more, got ${seconds}`);
  const hundredths = Math.round(seconds * 100);
  const whole = Math.floor(hundredths / 100);
  const hours = Math.floor(whole / HOUR);
  const minutes = Math.floor((whole % HOUR) / MINUTE);
  const rest = (hundredths - (hours * HOUR + minutes * MINUTE) * 100) / 100;
  const parts = [hours > 0 ? `${hours}H` : "", minutes > 0 ? `${minutes}M` : "", rest > 0 ? `${rest}S` : ""].join("");
  return `PT${parts === "" ? "0S" : parts}`;
}
