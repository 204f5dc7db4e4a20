import type { SoundStream } from "../sound.js";
import { type Fourier, fourier } from "./fourier.js";
import { MOST_SKEW } from "./places.js";
import { openReader, type SoundReader } from "./reader.js";
import { resampled } from "./resample.js";

/** Samples per second at which lags are measured: small loudspeakers and phones do best below half of it. */
const LAG_RATE = 8000;
/** Samples of the backing in a window (2 s); the recording is looked at in up to twice as many. */
const WINDOW = 16_384;
const REACH = 2 * WINDOW;
/** Seconds about the expected place that are searched: the novelty curves place it to a frame or two. */
const SEARCH = 0.04;
/** How far spectra are flattened: 1 is the phase transform (Knapp & Carter 1976), which lets bins without backing count too much. */
const FLATTEN = 0.75;
const LOWEST_HERTZ = 120;
const HIGHEST_HERTZ = 3300;

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
 * The lags of up to `most` windows, spread over what of the backing (of `seconds`) lies within the recording (of `recorded` seconds) when it
 * starts at `start`; silent windows are left out. A `skew` that is known is taken out within each window, which it would blur.
 */
export async function lagsAbout(
  start: number,
  {
    recording,
    backing,
    seconds,
    recorded,
    most,
    skew = 0,
  }: {
    recording: SoundStream;
    backing: SoundStream;
    seconds: number;
    recorded: number;
    most: number;
    skew?: number;
  },
): Promise<readonly Lag[]> {
  const [heard, known] = [await openReader(recording), await openReader(backing)];
  if (heard === undefined || known === undefined) return [];
  const transform = fourier(REACH);
  const lags: Lag[] = [];
  const span = WINDOW / LAG_RATE;
  const first = Math.max(0, -start);
  const last = Math.min(seconds, recorded - start);
  const hop = Math.max(span, (last - first) / most);
  for (let from = first; from < Math.max(last - span / 2, first + hop / 2); from += hop) {
    const search =
      Math.min(REACH - WINDOW, 2 * Math.ceil((SEARCH + (skew === 0 ? MOST_SKEW * from : 0)) * LAG_RATE)) / 2;
    const earliest = start + from * (1 + skew) - search / LAG_RATE;
    const piece = await pieceOf(known, { from, count: WINDOW, stretch: 1 + skew });
    const within = await pieceOf(heard, { from: earliest, count: WINDOW + 2 * search });
    const found = peakOf(transform, { piece, within, search });
    if (found === undefined) continue;
    const at = from + span / 2;
    lags.push({ at, lag: earliest + found.place / LAG_RATE - from + (skew * span) / 2, height: found.height });
  }
  await Promise.all([heard.close(), known.close()]);
  return lags;
}

function pieceOf(
  reader: SoundReader,
  { from, count, stretch = 1 }: { from: number; count: number; stretch?: number },
): Promise<Float64Array> {
  return resampled(reader, { from: from * reader.rate, step: reader.rate / LAG_RATE / stretch, count });
}

/** The place of `piece` in `within`, in samples, fractional, by generalised cross-correlation; `undefined` when either is silent there. */
function peakOf(
  transform: Fourier,
  { piece, within, search }: { piece: Float64Array; within: Float64Array; search: number },
): { readonly place: number; readonly height: number } | undefined {
  const [a, b] = [transform.forward(within), transform.forward(piece)];
  const cross = new Float64Array(2 * transform.size);
  const [low, high] = [LOWEST_HERTZ, HIGHEST_HERTZ].map((hertz) => Math.round((hertz * transform.size) / LAG_RATE));
  let power = 0;
  for (let bin = low!; bin < high!; bin++) {
    const k = 2 * bin;
    const re = a[k]! * b[k]! + a[k + 1]! * b[k + 1]!;
    const im = a[k + 1]! * b[k]! - a[k]! * b[k + 1]!;
    const size = Math.hypot(re, im);
    if (size === 0) continue;
    const weight = size ** -FLATTEN;
    cross[k] = re * weight;
    cross[k + 1] = im * weight;
    power += size ** (2 - 2 * FLATTEN);
  }
  if (!(power > 0)) return undefined;
  const correlation = transform.inverse(cross);
  let best = 0;
  for (let i = 0; i <= 2 * search; i++) if (correlation[i]! > correlation[best]!) best = i;
  // Standard deviation of the correlation of unrelated sounds with these weights (Parseval).
  const spread = Math.sqrt(2 * power) / transform.size;
  return { place: refined(correlation, best), height: correlation[best]! / spread };
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
