import type { Fraction } from "../../base/index.js";
import { type Drill, type Ladder, ladderStep, ladderValue, type Parameter } from "../../drill/index.js";

/** Number of rungs with the same settings in two drills. The rungs of a drill are a union of disjoint boxes; two boxes share the product of what their sides share. */
export function sharedRungs(old: Drill, now: Drill): number {
  const [left, right] = [boxesOf(old), boxesOf(now)];
  const parameters = parametersOf(old);
  if (!haveSameMembers(parameters, parametersOf(now))) return 0;
  let count = 0;
  for (const a of left) {
    for (const b of right) {
      let product = 1;
      for (const parameter of parameters) {
        if (product === 0) break;
        product *= sharedSteps(a.get(parameter)!, b.get(parameter)!);
      }
      count += product;
    }
  }
  return count;
}

/** The parameters of a drill's rungs, fixed or on a ladder. */
export function parametersOf(drill: Drill): readonly Parameter[] {
  return [...boxesOf(drill)[0]!.keys()];
}

/** All values of a parameter in a drill, as a stretch of its ladder. A fixed setting has one value. */
export function everyValue(drill: Drill, parameter: Parameter): Stretch {
  const ladder = drill.ladders.find((each) => each.parameter === parameter);
  if (ladder !== undefined) return { ladder, first: 0, end: ladder.count };
  return boxesOf(drill)[0]!.get(parameter)!;
}

/** A stretch of a ladder: the steps from `first` (counted from 0, included) to `end` (excluded). */
export interface Stretch {
  readonly ladder: Ladder;
  readonly first: number;
  readonly end: number;
}

/**
 * Number of values that two stretches of ladders have in common. Values are compared by their canonical texts. For two arithmetic
 * ladders the work does not grow with their length: the common terms are solved for. Lists and ladders by per cent (at most 9,990 tempi,
 * a tenth apart from 1 to 1000) are searched value by value.
 */
function sharedSteps(a: Stretch, b: Stretch): number {
  if (a.end <= a.first || b.end <= b.first) return 0;
  const [left, right] = [progression(a), progression(b)];
  if (left !== undefined && right !== undefined) return left.unit === right.unit ? sharedTerms(left, right) : 0;
  if (left !== undefined) return sharedByLookup(b, a);
  if (right !== undefined) return sharedByLookup(a, b);
  return a.end - a.first <= b.end - b.first ? sharedByLookup(a, b) : sharedByLookup(b, a);
}

/** Most examples of removed values; our choice: enough to recognise them. */
const NAMED = 3;

/** The values that one stretch has and another has not. */
interface GoneValues {
  readonly count: number;
  /** The first of them, in the order of the ladder. */
  readonly examples: readonly string[];
}

/** Set difference of two stretches: the values of `from` that `to` does not have. The examples are found by bisection, so long ladders are not walked through. */
export function goneValues(from: Stretch, to: Stretch): GoneValues {
  const goneBefore = (end: number): number => end - from.first - sharedSteps({ ...from, end }, to);
  const count = goneBefore(from.end);
  const examples: string[] = [];
  while (examples.length < Math.min(count, NAMED)) {
    // The least end before which one more value is missing than there are examples.
    let [low, high] = [from.first, from.end];
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (goneBefore(middle) > examples.length) high = middle;
      else low = middle;
    }
    examples.push(ladderValue(from.ladder, high - 1));
  }
  return { count, examples };
}

type Box = ReadonlyMap<Parameter, Stretch>;

/**
 * The rungs of a drill as disjoint boxes, one side for each setting. Box h holds the rungs in which ladder h is the highest ladder that
 * is off its bottom: the ladders above it are at their bottom, those below it at or above their restart. Box -1 is the first rung.
 */
function boxesOf(drill: Drill): readonly Box[] {
  const fixed = (Object.entries(drill.fixed) as [Parameter, string][]).map(
    ([parameter, text]): [Parameter, Stretch] => {
      const ladder: Ladder = { parameter, count: 1, values: { kind: "list", texts: [text] }, restart: "bottom" };
      return [parameter, { ladder, first: 0, end: 1 }];
    },
  );
  const boxes: Box[] = [];
  for (let highest = -1; highest < drill.ladders.length; highest++) {
    const climbing = drill.ladders.map((ladder, i): [Parameter, Stretch] => {
      if (i > highest) return [ladder.parameter, { ladder, first: 0, end: 1 }];
      return [ladder.parameter, { ladder, first: i === highest ? 1 : restartOf(ladder), end: ladder.count }];
    });
    boxes.push(new Map([...fixed, ...climbing]));
  }
  return boxes;
}

function restartOf(ladder: Ladder): number {
  return ladder.restart === "bottom" ? 0 : Math.max(0, ladder.count - 1 - ladder.restart);
}

function haveSameMembers(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((each) => b.includes(each));
}

function sharedByLookup(shorter: Stretch, other: Stretch): number {
  let count = 0;
  for (let k = shorter.first; k < shorter.end; k++) {
    const step = ladderStep(other.ladder, ladderValue(shorter.ladder, k));
    if (step !== undefined && step >= other.first && step < other.end) count += 1;
  }
  return count;
}

/** An arithmetic progression in exact numbers: values are `(start + k step) / scale` for k from 0 to `last`. */
interface Progression {
  readonly unit: string;
  readonly start: bigint;
  readonly step: bigint;
  readonly scale: bigint;
  readonly last: bigint;
}

function progression({ ladder, first, end }: Stretch): Progression | undefined {
  const { values } = ladder;
  if (values.kind === "list" || values.kind === "tempi by ratio") return undefined;
  const [from, unit] = values.kind === "spans" ? [values.from.count, values.from.unit] : [values.from, "bpm"];
  const scale = BigInt(from.d) * BigInt(values.by.d);
  const whole = ({ n, d }: Fraction): bigint => (BigInt(n) * scale) / BigInt(d);
  const step = whole(values.by);
  return { unit, start: whole(from) + BigInt(first) * step, step, scale, last: BigInt(end - first - 1) };
}

/** Number of terms that two arithmetic progressions share: a + kp = b + jq, solved by the extended Euclidean algorithm (Knuth, TAOCP 2, 4.5.2). */
function sharedTerms(left: Progression, right: Progression): number {
  return Number(commonTerms(ascending(left, right.scale), ascending(right, left.scale)));
}

/** The progression on a common scale, in ascending order. */
function ascending({ start, step, last }: Progression, scale: bigint): Ordered {
  if (step >= 0n) return { start: start * scale, step: step * scale, last };
  return { start: (start + step * last) * scale, step: -step * scale, last };
}

interface Ordered {
  readonly start: bigint;
  /** 0 for a ladder of one value that stands still. */
  readonly step: bigint;
  /** Index of the last value. */
  readonly last: bigint;
}

function commonTerms(a: Ordered, b: Ordered): bigint {
  if (a.step === 0n || a.last === 0n) return hasTerm(b, a.start) ? 1n : 0n;
  if (b.step === 0n || b.last === 0n) return hasTerm(a, b.start) ? 1n : 0n;
  const { divisor, factor } = extendedEuclid(a.step, b.step);
  const gap = b.start - a.start;
  if (gap % divisor !== 0n) return 0n;
  const period = b.step / divisor;
  // The least k >= 0 with a.start + k a.step in the other progression without its ends.
  const least = modulo((gap / divisor) * factor, period);
  const common = a.step * period;
  const start = a.start + least * a.step;
  const low = larger(a.start, b.start);
  // The smaller of the two last terms; Math.min does not take bigints.
  const high = -larger(-lastTerm(a), -lastTerm(b));
  const first = start + ceilDivide(low - start, common) * common;
  return first > high ? 0n : (high - first) / common + 1n;
}

function lastTerm({ start, step, last }: Ordered): bigint {
  return start + step * last;
}

function larger(a: bigint, b: bigint): bigint {
  return [a, b].sort((x, y) => Number(y > x) - Number(y < x))[0]!;
}

function hasTerm({ start, step, last }: Ordered, value: bigint): boolean {
  if (step === 0n || last === 0n) return value === start;
  const index = (value - start) / step;
  return (value - start) % step === 0n && index >= 0n && index <= last;
}

/** Extended Euclidean algorithm: the greatest common divisor of two positive numbers, and x with a x = divisor (mod b). */
function extendedEuclid(a: bigint, b: bigint): { readonly divisor: bigint; readonly factor: bigint } {
  let [r, s] = [a, b];
  let [x, y] = [1n, 0n];
  while (s !== 0n) {
    const q = r / s;
    [r, s] = [s, r - q * s];
    [x, y] = [y, x - q * y];
  }
  return { divisor: r, factor: x };
}

function modulo(value: bigint, by: bigint): bigint {
  return ((value % by) + by) % by;
}

function ceilDivide(value: bigint, by: bigint): bigint {
  const quotient = value / by;
  return quotient * by < value ? quotient + 1n : quotient;
}
