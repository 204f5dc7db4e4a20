import { powerOfTwo } from "../signal/realFft.js";
import { type Places, resampled, stretchFor } from "../signal/resample.js";
import { MOST_SKEW } from "./candidateStarts.js";
import { crossCorrelator } from "./crossCorrelation.js";
import type { SoundFeatures } from "./soundFeatures.js";

/** Seconds of the backing in a window, about: a power of two of samples; the recording is looked at in up to twice as many. */
const WINDOW = 1.5;
/** Seconds about the expected place that are searched: the novelty curves place it to a frame or two. */
const SEARCH = 0.04;
/** The two sounds that are compared. */
export interface Sounds {
  readonly recording: SoundFeatures;
  readonly backing: SoundFeatures;
}

/** A likely lag of one window of the backing in the recording; a window has several. */
export interface WindowLag {
  /** Seconds of the backing: the middle of the window. */
  readonly at: number;
  /** Seconds of the recording minus seconds of the backing. */
  readonly lag: number;
  /** Height of the peak in standard deviations of the correlation beside it. */
  readonly height: number;
}

/**
 * The likely lags of up to `most` windows, spread over what of the backing lies within the recording when it starts at `start`; silent windows are
 * left out; only windows between the seconds `from` and `to` of the backing, if these are given. Measured at the low rate of the recording. A `skew` that is known is taken out within each window, which it would blur.
 */
export function windowLags(
  start: number,
  {
    recording,
    backing,
    most,
    skew,
    from: earliestOf = 0,
    to: latestOf = Number.POSITIVE_INFINITY,
  }: Sounds & { most: number; skew?: number; from?: number; to?: number },
): readonly WindowLag[] {
  const { rate } = recording.low;
  const size = powerOfTwo((WINDOW * rate) / Math.SQRT2);
  const search = crossCorrelator(size, rate);
  const known = skew ?? 0;
  const lags: WindowLag[] = [];
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
    const at = from + span / 2;
    for (const { place, height } of search(piece, within, reach))
      lags.push({ at, lag: earliest + place / rate - from + (known * span) / 2, height });
  }
  return lags;
}

function pieceOf(
  { rate: own, sound }: SoundFeatures["low"],
  { from, count, rate }: { from: number; count: number; rate: number },
): Float64Array {
  const places: Places = { from: from * own, step: own / rate, count };
  const { first, length } = stretchFor(places);
  return resampled(sound.read(first, length), places);
}
