import {
  add,
  compare,
  divide,
  type Fraction,
  failure,
  floor,
  fraction,
  fractionText,
  gcd,
  multiply,
  parseFraction,
  subtract,
  success,
  ZERO,
} from "../base/index.js";
import { problem } from "./codes.js";
import { parseDecimal } from "./decimal.js";
import { barLength } from "./meter.js";
import type { MeteredBar, Swing } from "./model.js";
import type { Result } from "./problem.js";
import { quoted } from "./quoted.js";
import { sayOfMeter } from "./say.js";
import { barAt } from "./spanBounds.js";

/** Our choice: the most uneven ratio allowed. Played ratios reach 3.5:1 (Friberg & Sundström 2002, Music Perception 19(3) 333-349). */
const MOST_UNEVEN = 10;
/** Our choice: the largest term of a ratio in smallest whole numbers; keeps swung positions exact below 2^53. */
const LARGEST_TERM = 1000;

/**
 * Reads a swing: "2:1 1/8 note" (the word "note" is optional). The ratio is reduced to smallest whole numbers: 3.5:1 becomes 7:2.
 *
 * Problems: SWING_NOT_READ, SWING_RATIO_OUT_OF_RANGE.
 * @example parseSwing("2:1 1/8") // { ok: true, value: { subdivision: { n: 1, d: 8 }, first: 2, second: 1 }, ... }
 */
export function parseSwing(text: string): Result<Swing> {
  const match = /^([\d.]+)\s*:\s*([\d.]+)\s+(\d+\/\d+)(?:\s+notes?)?$/.exec(text.trim());
  const [first, second] = [parseDecimal(match?.[1] ?? ""), parseDecimal(match?.[2] ?? "")];
  const subdivision = parseFraction(match?.[3] ?? "");
  const isValue = subdivision?.n === 1 && subdivision.d <= 64 && Number.isInteger(Math.log2(subdivision.d));
  if (!match || !first || !second || !subdivision || !isValue) {
    const message = sayOfMeter("meter-problem.swing-not-read", { found: quoted(text) });
    const remedy = sayOfMeter("meter-problem.write-for-instance", { example: "2:1 1/8 note" });
    return failure(problem("SWING_NOT_READ", message, {}, remedy));
  }
  const ratio = first.n > 0 && second.n > 0 ? divide(first, second) : ZERO;
  const steepest = fraction(MOST_UNEVEN);
  if (
    ratio.n === 0 ||
    Math.max(ratio.n, ratio.d) > LARGEST_TERM ||
    compare(ratio, steepest) > 0 ||
    compare(divide(fraction(1), ratio), steepest) > 0
  ) {
    const found = `${match[1]}:${match[2]}`;
    const given = { steepest: MOST_UNEVEN, largest: LARGEST_TERM, found };
    const message = sayOfMeter("meter-problem.swing-ratio-out-of-range", given);
    const remedy = sayOfMeter("meter-problem.swing-ratio-out-of-range-remedy");
    return failure(problem("SWING_RATIO_OUT_OF_RANGE", message, {}, remedy));
  }
  return success({ subdivision, first: ratio.n, second: ratio.d });
}

/**
 * The canonical text of a swing, read back by `parseSwing`: "2:1 1/8".
 *
 * @example
 * swingText(parseSwing("2:1 1/8").value) // "2:1 1/8"
 */
export function swingText(swing: Swing): string {
  const shared = gcd(swing.first, swing.second) || 1;
  return `${swing.first / shared}:${swing.second / shared} ${fractionText(swing.subdivision)}`;
}

/**
 * Swung position of a written position, both in whole notes. The second note of each pair moves so that the pair has the ratio of the swing;
 * positions between are interpolated linearly. Pair boundaries do not move, and without swing nothing moves.
 *
 * Pairs are counted from the start of each group of the meter (of the bar in simple meters). A single subdivision left at the end of a group
 * stays straight. Without `bars`, pairs are counted from position 0.
 *
 * A note of a tuplet is no note of a pair: `late` of a note says how much later it sounds.
 */
export function swungPosition(position: Fraction, swing: Swing | undefined, bars?: readonly MeteredBar[]): Fraction {
  if (swing === undefined) return position;
  const start = pairStart(position, swing, bars);
  if (start === undefined) return position;
  const { subdivision, first, second } = swing;
  const within = subtract(position, start);
  const uneven =
    compare(within, subdivision) <= 0
      ? multiply(within, fraction(first))
      : add(multiply(within, fraction(second)), multiply(subdivision, fraction(first - second)));
  return add(start, multiply(uneven, fraction(2, first + second)));
}

/** Where the pair of a swing begins in which a position lies; `undefined` in what is left over at the end of a group. */
export function pairStart(
  position: Fraction,
  { subdivision }: Swing,
  bars?: readonly MeteredBar[],
): Fraction | undefined {
  const pair = multiply(subdivision, fraction(2));
  const group: { from: Fraction; to?: Fraction } = bars?.length ? groupAt(position, bars) : { from: ZERO };
  const index = floor(divide(subtract(position, group.from), pair));
  const start = add(group.from, multiply(pair, fraction(index)));
  return group.to && compare(add(start, pair), group.to) > 0 ? undefined : start;
}

/** Whether a position or a length is reached from whole notes by halving: eighths and sixteenths are, thirds of them are not. */
export function isBinary({ d }: Fraction): boolean {
  return (d & (d - 1)) === 0;
}

function groupAt(position: Fraction, bars: readonly MeteredBar[]): { from: Fraction; to: Fraction } {
  const bar = barAt(position, bars);
  let from = bar.position;
  for (const size of bar.meter.groups) {
    const to = add(from, fraction(size, bar.meter.lower));
    if (compare(position, to) < 0) return { from, to };
    from = to;
  }
  return { from, to: add(bar.position, barLength(bar.meter)) };
}
