import type { Fraction } from "../../base/index.js";
import { type Drill, type Ladder, ladderStep, ladderValue, type Parameter } from "../../drill/index.js";

/** How many rungs two drills share. The rungs of a drill fall into boxes, and two boxes share the product of what their sides share. */
export function sharedRungs(old: Drill, now: Drill): number {
  const [left, right] = [boxesOf(old), boxesOf(now)];
  const parameters = parametersOf(old);
  if (!sameMembers(parameters, parametersOf(now))) return 0;
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

/** Every setting a drill's rungs have, stated or climbing. */
export function parametersOf(drill: Drill): readonly Parameter[] {
  return [...boxesOf(drill)[0]!.keys()];
}

/** All values a setting has in a drill, as a stretch of its ladder; a stated setting has one. */
export function everyValue(drill: Drill, parameter: Parameter): Stretch {
  const ladder = drill.ladders.find((each) => each.parameter === parameter);
  if (ladder !== undefined) return { ladder, first: 0, end: ladder.count };
  return boxesOf(drill)[0]!.get(parameter)!;
}

/** Some steps of a ladder: from `first` (from 0) up to, not including, `end`. */
export interface Stretch {
  readonly ladder: Ladder;
  readonly first: number;
  readonly end: number;
}

/**
 * How many values two stretches of ladders have in common. Values are compared by their canonical texts. Work does not grow with the
 * length of arithmetic ladders: their common values are solved for. Lists, and ladders by per cent (at most 9,990 tempi apart by a
 * tenth from 1 to 1000), are looked through.
 */
export function sharedSteps(a: Stretch, b: Stretch): number {
  if (a.end <= a.first || b.end <= b.first) return 0;
  const [left, right] = [progression(a), progression(b)];
  if (left !== undefined && right !== undefined) return left.unit === right.unit ? shared(left, right) : 0;
  if (left !== undefined) return lookedThrough(b, a);
  if (right !== undefined) return lookedThrough(a, b);
  return a.end - a.first <= b.end - b.first ? lookedThrough(a, b) : lookedThrough(b, a);
}

/** Values named of those that are gone; our choice: enough to recognise them, however many there are. */
const NAMED = 3;

/** What one side of a comparison has and the other has not. */
export interface GoneValues {
  readonly count: number;
  /** The first of them, in the order of the ladder. */
  readonly examples: readonly string[];
}

/** The values of a stretch that another does not have. Long ladders are not walked through: the examples are found by halving. */
export function goneValues(from: Stretch, to: Stretch): GoneValues {
  const goneBefore = (end: number): number => end - from.first - sharedSteps({ ...from, end }, to);
  const count = goneBefore(from.end);
  const examples: string[] = [];
  while (examples.length < Math.min(count, NAMED)) {
    // The least end before which one more is gone than have been named.
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
 * The rungs of a drill as disjoint boxes, one side for each setting. Box h holds the rungs in which ladder h is the highest that has
 * left its bottom: those above it are at the bottom, those below it anywhere they go after a restart.
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

function sameMembers(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((each) => b.includes(each));
}

function lookedThrough(shorter: Stretch, other: Stretch): number {
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

/** How many numbers two arithmetic progressions share: a + kp = b + jq, solved by the extended Euclidean algorithm (Knuth, TAOCP 2, 4.5.2). */
function shared(left: Progression, right: Progression): number {
  return Number(meeting(rising(left, right.scale), rising(right, left.scale)));
}

/** The progression on a common scale, its steps upward. */
function rising({ start, step, last }: Progression, scale: bigint): Ordered {
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

function meeting(a: Ordered, b: Ordered): bigint {
  if (a.step === 0n || a.last === 0n) return holds(b, a.start) ? 1n : 0n;
  if (b.step === 0n || b.last === 0n) return holds(a, b.start) ? 1n : 0n;
  const { divisor, factor } = euclid(a.step, b.step);
  const gap = b.start - a.start;
  if (gap % divisor !== 0n) return 0n;
  const period = b.step / divisor;
  // The least k >= 0 with a.start + k a.step in the other progression, extended both ways.
  const least = modulo((gap / divisor) * factor, period);
  const common = a.step * period;
  const start = a.start + least * a.step;
  const low = larger(a.start, b.start);
  // The smaller of the two ends; Math.min cannot compare numbers this large.
  const high = -larger(-endOf(a), -endOf(b));
  const first = start + ceilDivide(low - start, common) * common;
  return first > high ? 0n : (high - first) / common + 1n;
}

function endOf({ start, step, last }: Ordered): bigint {
  return start + step * last;
}

function larger(a: bigint, b: bigint): bigint {
  return [a, b].sort((x, y) => Number(y > x) - Number(y < x))[0]!;
}

function holds({ start, step, last }: Ordered, value: bigint): boolean {
  if (step === 0n || last === 0n) return value === start;
  const index = (value - start) / step;
  return (value - start) % step === 0n && index >= 0n && index <= last;
}

/** The greatest common divisor of two positive numbers, and x with a x = divisor (mod b). */
function euclid(a: bigint, b: bigint): { readonly divisor: bigint; readonly factor: bigint } {
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
