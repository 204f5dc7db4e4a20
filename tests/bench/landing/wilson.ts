/** A share of counted cases with its 95 % interval. */
export interface Share {
  readonly count: number;
  readonly of: number;
  readonly low: number;
  readonly high: number;
}

const Z95 = 1.959964;

/** Wilson's score interval (Wilson 1927), 95 %; of none, everything is possible. */
export function wilson(count: number, of: number): Share {
  if (of === 0) return { count, of, low: 0, high: 1 };
  const p = count / of;
  const z2 = (Z95 * Z95) / of;
  const middle = (p + z2 / 2) / (1 + z2);
  const half = (Z95 * Math.sqrt((p * (1 - p)) / of + z2 / (4 * of))) / (1 + z2);
  return { count, of, low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}

/** "2.5 [1.3-4.9]", per cent; "-" of none. */
export function shareText({ count, of, low, high }: Share): string {
  if (of === 0) return "-";
  return `${percent(count / of)} [${percent(low)}-${percent(high)}]`;
}

/** One decimal, "100" without. */
export function percent(share: number): string {
  return share >= 0.9995 ? "100" : (100 * share).toFixed(1);
}
