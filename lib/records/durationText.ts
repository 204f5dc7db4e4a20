/** Hundredths of a second: the precision the specification asks for in section 4.6, and no more than we know. */
const HUNDREDTHS = 100;

/** A duration as ISO 8601 has it, to 0.01 s: "PT51.43S". Throws `RangeError` for one below 0 or without end. */
export function durationText(seconds: number): string {
  if (!(seconds >= 0 && seconds < Number.MAX_SAFE_INTEGER / HUNDREDTHS))
    throw new RangeError(`a duration is a number of seconds from 0, got ${seconds}`);
  const whole = Math.round(seconds * HUNDREDTHS);
  const rest = whole % HUNDREDTHS;
  const decimals = rest === 0 ? "" : `.${String(rest).padStart(2, "0").replace(/0$/, "")}`;
  return `PT${Math.floor(whole / HUNDREDTHS)}${decimals}S`;
}
