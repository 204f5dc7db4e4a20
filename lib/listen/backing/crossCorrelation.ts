import { realFft } from "../signal/realFft.js";

/** Band that is compared, hertz: small loudspeakers and phones are best there. It never reaches above the low-rate copy of a sound. */
const LOWEST_HERTZ = 120;
const HIGHEST_HERTZ = 3300;
/** Share of a rate that decimation leaves free of aliasing: see `halfBandDecimator`. */
const CLEAN = 5 / 12;

/** Finds likely places of a piece in a longer stretch, at most `reach` samples from its middle, the likeliest first; none when either is silent. */
export type CrossCorrelator = (piece: Float64Array, within: Float64Array, reach: number) => readonly CorrelationPeak[];

/** A place where two sounds are most alike. */
export interface CorrelationPeak {
  /** Samples, fractional. */
  readonly place: number;
  /** In standard deviations of the correlation of unrelated sounds. */
  readonly height: number;
}

/**
 * Peaks of a correlation that are kept at most, and seconds from one to the next at least; our choice. Where a loud note of the player begins a
 * few hundredths of a second beside a stroke of the backing, the two attacks stand higher than the stroke and its own sound.
 */
const PEAKS = 4;
const APART = 1e-3;

/**
 * Generalised cross-correlation (Knapp & Carter 1976) of pieces of `size` samples, a power of two, with stretches of up to twice as many, both
 * of this rate.
 */
export function crossCorrelator(size: number, rate: number): CrossCorrelator {
  const transform = realFft(2 * size);
  const highest = Math.min(HIGHEST_HERTZ, CLEAN * rate);
  const [low, high] = [LOWEST_HERTZ, highest].map((hertz) => Math.round((hertz * transform.size) / rate));
  const a = new Float64Array(transform.size + 2);
  const b = new Float64Array(transform.size + 2);
  const cross = new Float64Array(transform.size + 2);
  const correlation = new Float64Array(transform.size);
  return (piece, within, reach) => {
    transform.forward(within, a);
    transform.forward(piece, b);
    let power = 0;
    for (let bin = low!, k = 2 * low!; bin < high!; bin++, k += 2) {
      const re = a[k]! * b[k]! + a[k + 1]! * b[k + 1]!;
      const im = a[k + 1]! * b[k]! - a[k]! * b[k + 1]!;
      // Spectra are flattened to the power 3/4, our choice: 1 is the phase transform (Knapp & Carter 1976), which lets bins without backing
      // count too much. `root` is the root of the cross spectrum's size.
      const root = Math.sqrt(Math.sqrt(re * re + im * im));
      const weight = root === 0 ? 0 : 1 / (root * Math.sqrt(root));
      cross[k] = re * weight;
      cross[k + 1] = im * weight;
      power += root;
    }
    if (!(power > 0)) return [];
    transform.inverse(cross, correlation);
    // Standard deviation of the correlation of unrelated sounds with these weights (Parseval).
    const deviation = Math.sqrt(2 * power) / transform.size;
    return highestOf(correlation, { until: 2 * reach, apart: APART * rate }).map((at) => ({
      place: refined(correlation, at),
      height: correlation[at]! / deviation,
    }));
  };
}

/** Indices of the highest local maxima from 0 to `until`, highest first, at least `apart` from each other. */
function highestOf(
  curve: Float64Array,
  { until, apart }: { readonly until: number; readonly apart: number },
): readonly number[] {
  const isTop = (i: number): boolean =>
    curve[i]! > 0 && !(i > 0 && curve[i - 1]! > curve[i]!) && !(i < until && curve[i + 1]! > curve[i]!);
  const tops: number[] = [];
  for (let i = 0; i <= until; i++) if (isTop(i)) tops.push(i);
  const chosen: number[] = [];
  for (const top of tops.sort((a, b) => curve[b]! - curve[a]!)) {
    if (chosen.length === PEAKS) break;
    if (chosen.every((other) => Math.abs(other - top) >= apart)) chosen.push(top);
  }
  return chosen;
}

/** Position of a peak between samples: the correlation is band-limited, so it is interpolated by a windowed sinc, and then by a parabola. */
function refined(correlation: Float64Array, best: number): number {
  const fine = 16;
  const valueAt = (place: number): number => {
    let sum = 0;
    for (let k = Math.ceil(place) - 24; k < place + 24; k++) {
      const x = place - k;
      const sinc = x === 0 ? 1 : (Math.sin(Math.PI * x) / (Math.PI * x)) * Math.cos((Math.PI * x) / 48) ** 2;
      sum += correlation[k & (correlation.length - 1)]! * sinc;
    }
    return sum;
  };
  let top = best;
  let height = correlation[best]!;
  for (let j = -fine; j <= fine; j++) {
    const value = valueAt(best + j / fine);
    if (value > height) [top, height] = [best + j / fine, value];
  }
  const [before, after] = [valueAt(top - 1 / fine), valueAt(top + 1 / fine)];
  const bend = before - 2 * height + after;
  return bend < 0 ? top + (before - after) / (2 * bend * fine) : top;
}
