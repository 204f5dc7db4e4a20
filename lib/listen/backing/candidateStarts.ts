import { powerOfTwo, realFft } from "../signal/realFft.js";
import { NOVELTY_RATE, type NoveltyCurves } from "./noveltyCurves.js";

/** Clocks of consumer devices differ by less than this, as a ratio (200 parts per million), with some room. */
export const MOST_SKEW = 250e-6;
/** Seconds of the backing compared as one piece: our choice, so that the skew shifts its halves by no more than two frames. */
const PIECE = 100;
/** A start within this many seconds of a better one is the same start. */
const APART = 0.08;

/** A start of the backing that the novelty curves suggest. */
export interface CandidateStart {
  /** Seconds of the recording, negative when it began later than the backing. */
  readonly start: number;
  /** Sum of correlation over all pieces, in standard deviations of what unrelated places show. */
  readonly strength: number;
}

/** The likeliest starts of the backing in the recording, best first, by cross-correlation of novelty curves. */
export function candidateStarts(
  recording: NoveltyCurves,
  backing: NoveltyCurves,
  most: number,
): readonly CandidateStart[] {
  const piece = Math.min(backing.frames, PIECE * NOVELTY_RATE);
  const pieces = Math.ceil(backing.frames / piece);
  const transform = realFft(powerOfTwo(recording.frames + piece));
  // Index `frames + lag` for every lag at which the two overlap.
  const total = new Float64Array(backing.frames + recording.frames);
  const heard = recording.bands.map((band) => transform.forward(band));
  // Long recordings have long spectra: the same arrays serve every piece.
  const cross = new Float64Array(transform.size + 2);
  const spectrum = new Float64Array(transform.size + 2);
  const correlation = new Float64Array(transform.size);
  for (let number = 0; number < pieces; number++) {
    const from = number * piece;
    const to = Math.min(backing.frames, from + piece);
    cross.fill(0);
    backing.bands.forEach((band, b) => {
      addCross(cross, heard[b]!, transform.forward(band.subarray(from, to), spectrum));
    });
    transform.inverse(cross, correlation);
    const slack = Math.ceil(MOST_SKEW * from);
    for (let lag = -backing.frames; lag < recording.frames; lag++) {
      let best = Number.NEGATIVE_INFINITY;
      for (let s = -slack; s <= slack; s++) {
        const at = lag + from + s;
        const inside = at > from - to && at < recording.frames;
        best = Math.max(best, inside ? correlation[at < 0 ? at + transform.size : at]! : 0);
      }
      total[backing.frames + lag]! += best;
    }
  }
  return highestPeaks(total, most).map(({ index, strength }) => ({
    start: (index - backing.frames) / NOVELTY_RATE,
    strength,
  }));
}

/** Adds a times the conjugate of b, bins 0 to half. */
function addCross(sum: Float64Array, a: Float64Array, b: Float64Array): void {
  for (let k = 0; k < sum.length; k += 2) {
    sum[k]! += a[k]! * b[k]! + a[k + 1]! * b[k + 1]!;
    sum[k + 1]! += a[k + 1]! * b[k]! - a[k]! * b[k + 1]!;
  }
}

function highestPeaks(
  curve: Float64Array,
  most: number,
): readonly { readonly index: number; readonly strength: number }[] {
  const mean = curve.reduce((sum, value) => sum + value, 0) / curve.length;
  const deviation = Math.sqrt(curve.reduce((sum, value) => sum + (value - mean) ** 2, 0) / curve.length) || 1;
  const near = Math.round(APART * NOVELTY_RATE);
  const left = Float64Array.from(curve);
  const peaks: { index: number; strength: number }[] = [];
  while (peaks.length < most) {
    let index = 0;
    for (let i = 1; i < left.length; i++) if (left[i]! > left[index]!) index = i;
    if (!(left[index]! > mean)) break;
    peaks.push({ index, strength: (left[index]! - mean) / deviation });
    left.fill(Number.NEGATIVE_INFINITY, Math.max(0, index - near), index + near + 1);
  }
  return peaks;
}
