/** Highest partition order tried: at most 32 partitions to a block. */
const MOST_ORDER = 5;
/** Highest Rice parameter of the short form, of 4 bits; 15 is an escape code there. */
const SHORT = 14;
/** Highest of the long form, of 5 bits; 31 is an escape code. */
const LONG = 30;

/** How a residual is written: a Rice parameter for each of 2^order partitions of equal length (RFC 9639, section 9.2.7). */
export interface RiceCode {
  readonly order: number;
  readonly parameters: Uint8Array;
  /** Bits of the residual with its parameters, to within rounding. */
  readonly bits: number;
}

/** Whether the parameters have the long form, of 5 bits. */
export function isLong({ parameters }: RiceCode): boolean {
  return parameters.some((parameter) => parameter > SHORT);
}

/** The partition order and parameters that need the fewest bits. `residual` begins after `warmUp` samples of the block, which belong to the first partition. */
export function riceCodeOf(residual: Int32Array, { block, warmUp }: { block: number; warmUp: number }): RiceCode {
  let order = 0;
  while (order < MOST_ORDER && block % (2 << order) === 0 && block >> (order + 1) > warmUp) order++;
  let sums = foldedSums(residual, { block, warmUp, order });
  let best = codeOf(sums, { block, warmUp, order });
  while (order > 0) {
    order--;
    sums = sums.subarray(0, sums.length >> 1).map((_, i) => sums[2 * i]! + sums[2 * i + 1]!);
    const code = codeOf(sums, { block, warmUp, order });
    if (code.bits < best.bits) best = code;
  }
  return best;
}

interface Shape {
  readonly block: number;
  readonly warmUp: number;
  readonly order: number;
}

/** Sums of the absolute values in each partition. */
function foldedSums(residual: Int32Array, { block, warmUp, order }: Shape): Float64Array {
  const size = block >> order;
  const sums = new Float64Array(1 << order);
  let i = 0;
  for (let p = 0; p < sums.length; p++) {
    let sum = 0;
    for (const end = (p + 1) * size - warmUp; i < end; i++) {
      const value = residual[i]!;
      sum += value < 0 ? -value : value;
    }
    sums[p] = sum;
  }
  return sums;
}

/** A number x folds to about 2 |x|, of which the unary part is 2 |x| / 2^k, less half a unit on average for the bits that are cut off. */
function codeOf(sums: Float64Array, { block, warmUp, order }: Shape): RiceCode {
  const size = block >> order;
  const parameters = new Uint8Array(sums.length);
  let bits = 6;
  for (let p = 0; p < sums.length; p++) {
    const count = p === 0 ? size - warmUp : size;
    const sum = sums[p]!;
    // Fewest bits lie where the unary part has about one bit: 2^k near the mean of the folded numbers, times ln 2.
    const guess = sum > count ? Math.min(LONG, Math.max(0, Math.floor(Math.log2(sum / count)))) : 0;
    let least = cost(sum, count, guess);
    let parameter = guess;
    const next = guess < LONG ? cost(sum, count, guess + 1) : Number.POSITIVE_INFINITY;
    if (next < least) {
      least = next;
      parameter = guess + 1;
    }
    parameters[p] = parameter;
    bits += least;
  }
  bits += sums.length * (parameters.some((parameter) => parameter > SHORT) ? 5 : 4);
  return { order, parameters, bits };
}

function cost(sum: number, count: number, parameter: number): number {
  if (parameter === 0) return count + 2 * sum;
  return count * (parameter + 1) + Math.max(0, sum / 2 ** (parameter - 1) - count / 2);
}
