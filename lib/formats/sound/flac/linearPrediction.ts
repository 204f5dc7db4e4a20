/** Highest order of linear prediction: that of the usual level of compression, 5. */
const MOST_LPC = 8;
/** Share of the window that rises or falls, half at each end (Tukey). */
const TAPER = 0.5;
/** Most bits of a coefficient, sign included (RFC 9639, section 9.2.6: up to 15). */
const WIDEST = 15;
const MOST_SHIFT = 15;
/** A residual lies strictly within this (RFC 9639, section 9.2.7.3). */
const LIMIT = 2 ** 31;

/** A predictor with whole-number coefficients: the next sample is their sum with the last samples, times 2^-shift. */
export interface Predictor {
  /** The latest sample first. */
  readonly coefficients: readonly number[];
  readonly shift: number;
  /** Bits of a coefficient. */
  readonly precision: number;
}

/** The predictors of all orders for one signal, before rounding, with the error of each. */
export interface Prediction {
  /** Coefficients by order, from 1. */
  readonly orders: readonly (readonly number[])[];
  /** The order that needs the fewest bits, and how many, warm-up and coefficients included. */
  readonly order: number;
  readonly bits: number;
}

/** A Tukey window: raised cosines at both ends (F. J. Harris 1978, "On the Use of Windows for Harmonic Analysis", from memory). */
export function taperOf(length: number): Float64Array {
  const edge = Math.floor((TAPER / 2) * length) - 1;
  const made = new Float64Array(length).fill(1);
  for (let i = 0; i <= edge; i++) {
    made[i] = 0.5 - 0.5 * Math.cos((Math.PI * i) / Math.max(1, edge));
    made[length - 1 - i] = made[i]!;
  }
  return made;
}

/** Sums of products with the samples 0 to MOST_LPC earlier. Four sums to a pass: they stay in registers. */
export function autocorrelation(x: Float64Array): Float64Array {
  const sums = new Float64Array(MOST_LPC + 1);
  const n = x.length;
  if (n <= MOST_LPC) {
    for (let lag = 0; lag < n; lag++) for (let i = lag; i < n; i++) sums[lag]! += x[i]! * x[i - lag]!;
    return sums;
  }
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let s5 = 0;
  let s6 = 0;
  let s7 = 0;
  let s8 = 0;
  let d1 = 0;
  let d2 = 0;
  let d3 = 0;
  let d4 = 0;
  let d5 = 0;
  let d6 = 0;
  let d7 = 0;
  let d8 = 0;
  for (let i = 0; i < n; i++) {
    const d0 = x[i]!;
    s0 += d0 * d0;
    s1 += d0 * d1;
    s2 += d0 * d2;
    s3 += d0 * d3;
    s4 += d0 * d4;
    s5 += d0 * d5;
    s6 += d0 * d6;
    s7 += d0 * d7;
    s8 += d0 * d8;
    d8 = d7;
    d7 = d6;
    d6 = d5;
    d5 = d4;
    d4 = d3;
    d3 = d2;
    d2 = d1;
    d1 = d0;
  }
  sums.set([s0, s1, s2, s3, s4, s5, s6, s7, s8]);
  return sums;
}

/** Levinson-Durbin recursion (J. Makhoul 1975, "Linear prediction: a tutorial review", from memory), and the order that needs the fewest bits. */
export function predictionOf(sums: Float64Array, { block, bits }: { block: number; bits: number }): Prediction {
  const most = Math.min(MOST_LPC, block - 1);
  const orders: number[][] = [];
  const current: number[] = [];
  let error = sums[0]!;
  let order = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < most && error > 0; i++) {
    let reflection = -sums[i + 1]!;
    for (let j = 0; j < i; j++) reflection -= current[j]! * sums[i - j]!;
    reflection /= error;
    const before = current.slice();
    for (let j = 0; j < i; j++) current[j] = before[j]! + reflection * before[i - 1 - j]!;
    current[i] = reflection;
    error *= 1 - reflection * reflection;
    orders.push(current.map((value) => -value));
    const needed = bitsPerSample(error, block) * (block - i - 1) + (i + 1) * (bits + WIDEST);
    if (needed < least) {
      least = needed;
      order = i + 1;
    }
  }
  return { orders, order, bits: least };
}

/** Expected bits of a number of Laplace distribution with this mean square: 0.5 log2(ln 2 squared, over 2, times it); never below 0. */
function bitsPerSample(error: number, block: number): number {
  return error > 0 ? Math.max(0, 0.5 * Math.log2((0.5 * Math.LN2 * Math.LN2 * error) / block)) : 0;
}

/** Rounds coefficients; the error of each is handed on to the next. `undefined` when they are too large or all zero. */
export function rounded(coefficients: readonly number[], block: number, bits: number): Predictor | undefined {
  const precision = precisionFor(block, bits);
  const largest = Math.max(...coefficients.map(Math.abs));
  if (!(largest > 0 && Number.isFinite(largest))) return undefined;
  const shift = Math.min(MOST_SHIFT, precision - 2 - Math.floor(Math.log2(largest)));
  if (shift < 0) return undefined;
  const most = 2 ** (precision - 1) - 1;
  let carried = 0;
  const whole = coefficients.map((value) => {
    carried += value * 2 ** shift;
    const number = Math.max(-most - 1, Math.min(most, Math.round(carried)));
    carried -= number;
    return number;
  });
  return { coefficients: whole, shift, precision };
}

/** Short blocks do not repay wide coefficients; our choice. */
function precisionFor(block: number, bits: number): number {
  if (block <= 384) return bits > 16 ? 13 : 8;
  if (block <= 1152) return bits > 16 ? 14 : 10;
  return bits > 17 ? WIDEST : 12;
}

/**
 * The residual of a predictor from sample `order` on, into `residual`. False when a number does not fit into 32 bits as the format demands. Sums of
 * 8 products of 25 and 15 bits are exact in floating point.
 */
export function residualOf(x: Float64Array, { coefficients, shift }: Predictor, residual: Int32Array): boolean {
  const [c1 = 0, c2 = 0, c3 = 0, c4 = 0, c5 = 0, c6 = 0, c7 = 0, c8 = 0] = coefficients;
  const order = coefficients.length;
  const scale = 2 ** -shift;
  let d1 = x[order - 1]!;
  let d2 = x[order - 2] ?? 0;
  let d3 = x[order - 3] ?? 0;
  let d4 = x[order - 4] ?? 0;
  let d5 = x[order - 5] ?? 0;
  let d6 = x[order - 6] ?? 0;
  let d7 = x[order - 7] ?? 0;
  let d8 = x[order - 8] ?? 0;
  for (let i = order; i < x.length; i++) {
    const now = x[i]!;
    const sum = c1 * d1 + c2 * d2 + (c3 * d3 + c4 * d4) + (c5 * d5 + c6 * d6 + (c7 * d7 + c8 * d8));
    const left = now - Math.floor(sum * scale);
    if (Math.abs(left) >= LIMIT) return false;
    residual[i - order] = left;
    d8 = d7;
    d7 = d6;
    d6 = d5;
    d5 = d4;
    d4 = d3;
    d3 = d2;
    d2 = d1;
    d1 = now;
  }
  return true;
}
