export interface AsideOptions {
  /** Digits after the point; none when left out. */
  readonly digits?: number;
  /** Standard error, ms. */
  readonly error?: number;
}

/**
 * How far off a moment is, for people, who never see a bare sign: "176 ms early", "176 ± 13 ms early", "8 ms late"; "0 ms" where nothing is left of
 * it at these digits. Negative is early.
 *
 * @example asideText(-176, { error: 13 }) // "176 ± 13 ms early"
 */
export function asideText(ms: number, { digits = 0, error }: AsideOptions = {}): string {
  const size = Math.abs(ms).toFixed(digits);
  const known = error === undefined ? size : `${size} ± ${error.toFixed(digits)}`;
  return Number(size) === 0 ? `${known} ms` : `${known} ms ${ms < 0 ? "early" : "late"}`;
}
