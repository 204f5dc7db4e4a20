import type { BitWriter } from "./bitWriter.js";
import { crc8, crc16 } from "./crc.js";
import { bestDifference, differences } from "./fixedPrediction.js";
import {
  autocorrelation,
  type Prediction,
  type Predictor,
  predictionOf,
  residualOf,
  rounded,
  taperOf,
} from "./linearPrediction.js";
import { isLong, type RiceCode, riceCodeOf } from "./rice.js";

/** Samples in a frame: the usual size at level 5. */
export const BLOCK = 4096;
/** Codes of the frame header (RFC 9639, section 9.1). */
const RATES: Readonly<Record<number, number>> = { 44100: 9, 48000: 10 };
const DEPTHS: Readonly<Record<number, number>> = { 16: 4, 24: 6 };
const PAIRS = { sides: 1, leftAndSide: 8, sideAndRight: 9, middleAndSide: 10 } as const;

/** How one channel of a frame is written. */
type Subframe = { readonly bits: number; readonly depth: number; readonly wasted: number } & (
  | { readonly kind: "constant"; readonly value: number }
  | { readonly kind: "verbatim"; readonly x: Float64Array }
  | {
      readonly kind: "fixed";
      readonly x: Float64Array;
      readonly residual: Int32Array;
      readonly rice: RiceCode;
      readonly order: number;
    }
  | {
      readonly kind: "linear";
      readonly x: Float64Array;
      readonly residual: Int32Array;
      readonly rice: RiceCode;
      readonly predictor: Predictor;
    }
);

/** A signal that may be written as a channel: the left, the right, their mean or their difference. */
interface Signal {
  readonly x: Float64Array;
  /** Bits in which samples differ from the first. */
  readonly changes: number;
  /** Bits of a sample; one more for the difference. */
  readonly depth: number;
  readonly prediction: Prediction;
}

/** Room for the signals of a frame, used again for every frame. */
interface Room {
  readonly taper: Float64Array;
  readonly signals: {
    readonly left: Float64Array;
    readonly right: Float64Array;
    readonly middle: Float64Array;
    readonly side: Float64Array;
  };
  /** The same under the window. */
  readonly tapered: readonly [left: Float64Array, right: Float64Array, side: Float64Array];
}

/**
 * Writes frames, in order, from `numbers`: left and right in turn. The pair of channels is chosen by what their predictions are expected to
 * leave: left and right, or one of them and the difference, or mean and difference.
 */
export function frameEncoder(
  out: BitWriter,
  numbers: Int32Array,
  { rate, bits }: { rate: number; bits: number },
): (number: number) => void {
  let room = roomFor(BLOCK);
  return (number) => {
    const from = number * BLOCK;
    const block = Math.min(BLOCK, numbers.length / 2 - from);
    if (block < BLOCK) room = roomFor(block);
    const start = out.length();
    const { pair, signals } = pairOf(numbers.subarray(2 * from, 2 * (from + block)), room, bits);
    const subframes = signals.map(subframeOf);
    putHeader(out, { number, block, rate, bits, pair });
    out.put(crc8(out.bytes(start)), 8);
    for (const subframe of subframes) putSubframe(out, subframe);
    out.align();
    out.put(crc16(out.bytes(start)), 16);
  };
}

function roomFor(block: number): Room {
  const signal = (): Float64Array => new Float64Array(block);
  return {
    taper: taperOf(block),
    signals: { left: signal(), right: signal(), middle: signal(), side: signal() },
    tapered: [signal(), signal(), signal()],
  };
}

interface Pair {
  readonly pair: number;
  readonly signals: readonly [Signal, Signal];
}

function pairOf(numbers: Int32Array, { taper, signals, tapered }: Room, bits: number): Pair {
  const block = taper.length;
  const { left, right, middle, side } = signals;
  const [l, r, s] = tapered;
  const [firstA, firstB] = [numbers[0]!, numbers[1]!];
  const [firstMiddle, firstSide] = [(firstA + firstB) >> 1, firstA - firstB];
  let changesA = 0;
  let changesB = 0;
  let changesMiddle = 0;
  let changesSide = 0;
  for (let i = 0; i < block; i++) {
    const a = numbers[2 * i]!;
    const b = numbers[2 * i + 1]!;
    left[i] = a;
    right[i] = b;
    middle[i] = (a + b) >> 1;
    side[i] = a - b;
    changesA |= a ^ firstA;
    changesB |= b ^ firstB;
    changesMiddle |= ((a + b) >> 1) ^ firstMiddle;
    changesSide |= (a - b) ^ firstSide;
    const weight = taper[i]!;
    l[i] = a * weight;
    r[i] = b * weight;
    s[i] = (a - b) * weight;
  }
  const [ofLeft, ofRight, ofSide] = [autocorrelation(l), autocorrelation(r), autocorrelation(s)];
  const signal = (x: Float64Array, sums: Float64Array, of: Pick<Signal, "changes" | "depth">): Signal => ({
    x,
    ...of,
    prediction: predictionOf(sums, { block, bits: of.depth }),
  });
  // |l + r|^2 + |l - r|^2 = 2 |l|^2 + 2 |r|^2 holds for every lag, so that the mean needs no sums of its own.
  const ofMiddle = ofSide.map((value, i) => (ofLeft[i]! + ofRight[i]!) / 2 - value / 4);
  const ofL = signal(left, ofLeft, { changes: changesA, depth: bits });
  const ofR = signal(right, ofRight, { changes: changesB, depth: bits });
  const ofM = signal(middle, ofMiddle, { changes: changesMiddle, depth: bits });
  const ofS = signal(side, ofSide, { changes: changesSide, depth: bits + 1 });
  const pairs: readonly Pair[] = [
    { pair: PAIRS.sides, signals: [ofL, ofR] },
    { pair: PAIRS.leftAndSide, signals: [ofL, ofS] },
    { pair: PAIRS.sideAndRight, signals: [ofS, ofR] },
    { pair: PAIRS.middleAndSide, signals: [ofM, ofS] },
  ];
  const needs = ({ signals: [a, b] }: Pair): number => expectedBits(a) + expectedBits(b);
  return pairs.reduce((best, each) => (needs(each) < needs(best) ? each : best));
}

/** No signal needs more than its samples as they are; one without any energy needs nothing. */
function expectedBits({ x, depth, prediction }: Signal): number {
  return prediction.orders.length === 0 ? 0 : Math.min(prediction.bits, x.length * depth);
}

function subframeOf({ x: given, changes, depth: full, prediction }: Signal): Subframe {
  const first = given[0]!;
  if (changes === 0) return { kind: "constant", value: first, bits: full, depth: full, wasted: 0 };
  // The lowest bit that any sample has.
  const any = changes | first;
  const wasted = 31 - Math.clz32(any & -any);
  const x = wasted === 0 ? given : given.map((value) => value * 2 ** -wasted);
  const depth = full - wasted;
  const linear = linearOf(x, { depth, wasted, prediction });
  const { order, mean } = bestDifference(x);
  // Bits of differences of this mean size, from the entropy of the Laplace distribution: log2(2 e mean).
  const hoped = order * depth + (x.length - order) * Math.log2(Math.max(1, 2 * Math.E * mean));
  const isWorthwhile = linear === undefined || hoped < HOPE * linear.bits;
  const fixed = isWorthwhile ? fixedOf(x, { depth, wasted, order }) : undefined;
  const verbatim: Subframe = { kind: "verbatim", x, depth, wasted, bits: x.length * depth };
  return [linear, fixed].reduce(
    (best: Subframe, each) => (each !== undefined && each.bits < best.bits ? each : best),
    verbatim,
  );
}

/** The differences are worked out when the linear prediction is not at least this much better; our choice, for the error of the estimate. */
const HOPE = 1.1;

function linearOf(
  x: Float64Array,
  { depth, wasted, prediction }: { depth: number; wasted: number; prediction: Prediction },
): Subframe | undefined {
  const coefficients = prediction.orders[prediction.order - 1];
  const predictor = coefficients === undefined ? undefined : rounded(coefficients, x.length, depth);
  if (predictor === undefined) return undefined;
  const order = predictor.coefficients.length;
  const residual = new Int32Array(x.length - order);
  if (!residualOf(x, predictor, residual)) return undefined;
  const rice = riceCodeOf(residual, { block: x.length, warmUp: order });
  const bits = order * (depth + predictor.precision) + 9 + rice.bits;
  return { kind: "linear", x, residual, rice, predictor, bits, depth, wasted };
}

function fixedOf(
  x: Float64Array,
  { depth, wasted, order }: { depth: number; wasted: number; order: number },
): Subframe {
  const whole = new Int32Array(x.length);
  differences(x, order, whole);
  const residual = whole.subarray(0, x.length - order);
  const rice = riceCodeOf(residual, { block: x.length, warmUp: order });
  return { kind: "fixed", x, residual, rice, order, bits: order * depth + rice.bits, depth, wasted };
}

function putHeader(
  out: BitWriter,
  { number, block, rate, bits, pair }: { number: number; block: number; rate: number; bits: number; pair: number },
): void {
  out.put(0xfff8, 16);
  out.put(block === BLOCK ? 12 : 7, 4);
  out.put(RATES[rate]!, 4);
  out.put(pair, 4);
  out.put(DEPTHS[bits]!, 3);
  out.put(0, 1);
  putNumber(out, number);
  if (block !== BLOCK) out.put(block - 1, 16);
}

/** The frame number, as UTF-8 writes a character. */
function putNumber(out: BitWriter, number: number): void {
  if (number < 0x80) {
    out.put(number, 8);
    return;
  }
  let following = 1;
  while (number >= 2 ** (5 * following + 6)) following++;
  out.put((0xff00 >> (following + 1)) | (number >>> (6 * following)), 8);
  for (let i = following - 1; i >= 0; i--) out.put(0x80 | ((number >>> (6 * i)) & 0x3f), 8);
}

const KINDS = { constant: 0, verbatim: 1, fixed: 8, linear: 32 } as const;

function putSubframe(out: BitWriter, subframe: Subframe): void {
  const { kind, depth, wasted } = subframe;
  const order = kind === "fixed" ? subframe.order : kind === "linear" ? subframe.predictor.coefficients.length - 1 : 0;
  out.put(0, 1);
  out.put(KINDS[kind] + order, 6);
  out.put(wasted > 0 ? 1 : 0, 1);
  if (wasted > 0) out.put(1, wasted);
  if (kind === "constant") {
    out.put(subframe.value, depth);
    return;
  }
  const { x } = subframe;
  const plain = kind === "verbatim" ? x.length : x.length - subframe.residual.length;
  for (let i = 0; i < plain; i++) out.put(x[i]!, depth);
  if (kind === "verbatim") return;
  if (kind === "linear") {
    const { precision, shift, coefficients } = subframe.predictor;
    out.put(precision - 1, 4);
    out.put(shift, 5);
    for (const value of coefficients) out.put(value, precision);
  }
  putResidual(out, subframe.residual, { rice: subframe.rice, block: x.length });
}

function putResidual(out: BitWriter, residual: Int32Array, { rice, block }: { rice: RiceCode; block: number }): void {
  const width = isLong(rice) ? 5 : 4;
  out.put(width - 4, 2);
  out.put(rice.order, 4);
  const size = block >> rice.order;
  let from = 0;
  rice.parameters.forEach((parameter, p) => {
    const count = p === 0 ? size - (block - residual.length) : size;
    out.put(parameter, width);
    out.putRice(residual, { from, count, parameter });
    from += count;
  });
}
