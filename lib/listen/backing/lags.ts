import { fourier, powerOfTwo } from "./fourier.js";
import { MOST_SKEW } from "./places.js";
import { type Places, resampled, stretchFor } from "./resample.js";
import type { Surveyed } from "./survey.js";

/** Seconds of the backing in a window, about: a power of two of samples; the recording is looked at in up to twice as many. */
const WINDOW = 1.5;
/** Seconds about the expected place that are searched: the novelty curves place it to a frame or two. */
const SEARCH = 0.04;
/** Hertz that are compared: small loudspeakers and phones do best there; never above what is left of a sound at its low rate. */
const LOWEST_HERTZ = 120;
const HIGHEST_HERTZ = 3300;
/** What halving leaves clean of a rate: see `halving`. */
const CLEAN = 5 / 12;

/** What is compared. */
export interface Sounds {
  readonly recording: Surveyed;
  readonly backing: Surveyed;
}

/** Where one window of the backing was found. */
export interface Lag {
  /** Seconds of the backing: the middle of the window. */
  readonly at: number;
  /** Seconds of the recording minus seconds of the backing. */
  readonly lag: number;
  /** Height of the peak in standard deviations of the correlation beside it. */
  readonly height: number;
}

/**
 * The lags of up to `most` windows, spread over what of the backing lies within the recording when it starts at `start`; silent windows are
 * left out; only windows between the seconds `from` and `to` of the backing, if these are given. Measured at the low rate of the recording. A `skew` that is known is taken out within each window, which it would blur.
 */
export function lagsAbout(
  start: number,
  {
    recording,
    backing,
    most,
    skew,
    from: earliestOf = 0,
    to: latestOf = Number.POSITIVE_INFINITY,
  }: Sounds & { most: number; skew?: number; from?: number; to?: number },
): readonly Lag[] {
  const { rate } = recording.low;
  const size = powerOfTwo((WINDOW * rate) / Math.SQRT2);
  const search = searcherFor(size, rate);
  const known = skew ?? 0;
  const lags: Lag[] = [];
  const span = size / rate;
  const first = Math.max(0, -start, earliestOf);
  const last = Math.min(backing.seconds, recording.seconds - start, latestOf);
  const hop = Math.max(span, (last - first) / most);
  for (let from = first; from < Math.max(last - span / 2, first + hop / 2); from += hop) {
    const reach = Math.min(size, 2 * Math.ceil((SEARCH + (skew === undefined ? MOST_SKEW * from : 0)) * rate)) / 2;
    // A whole number of samples into the recording.
    const begin = Math.round((start + from * (1 + known)) * rate) - reach;
    const earliest = begin / rate;
    const piece = pieceOf(backing.low, { from, count: size, rate: rate * (1 + known) });
    const within = recording.low.sound.read(begin, size + 2 * reach);
    const found = search(piece, within, reach);
    if (found === undefined) continue;
    const at = from + span / 2;
    lags.push({ at, lag: earliest + found.place / rate - from + (known * span) / 2, height: found.height });
  }
  return lags;
}

function pieceOf(
  { rate: own, sound }: Surveyed["low"],
  { from, count, rate }: { from: number; count: number; rate: number },
): Float64Array {
  const places: Places = { from: from * own, step: own / rate, count };
  const { first, length } = stretchFor(places);
  return resampled(sound.read(first, length), places);
}

/** Finds the place of a piece, in samples, fractional, within a longer one, `reach` from its middle at most; `undefined` when either is silent. */
type Searcher = (
  piece: Float64Array,
  within: Float64Array,
  reach: number,
) => { readonly place: number; readonly height: number } | undefined;

/** By generalised cross-correlation. */
function searcherFor(size: number, rate: number): Searcher {
  const transform = fourier(2 * size);
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
    if (!(power > 0)) return undefined;
    transform.inverse(cross, correlation);
    let best = 0;
    for (let i = 0; i <= 2 * reach; i++) if (correlation[i]! > correlation[best]!) best = i;
    // Standard deviation of the correlation of unrelated sounds with these weights (Parseval).
    const spread = Math.sqrt(2 * power) / transform.size;
    return { place: refined(correlation, best), height: correlation[best]! / spread };
  };
}

/** A peak between samples: the correlation is band-limited, so it is interpolated by a windowed sinc before a parabola is laid. */
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
