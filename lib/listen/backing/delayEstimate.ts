/** Largest correction of the skew, as a ratio; a larger one is chance. Our choice, far above the error of the window lags. */
const MOST = 10e-6;

/** The delay of the backing in one stretch of a recording. */
export interface Delay {
  /** Samples. */
  readonly late: number;
  /** Its precision: the inverse of its variance, up to a common factor. */
  readonly weight: number;
}

/**
 * Delay of a sound in spectrum `b` against its spectrum `a` filtered by `path`: least squares to first order in the delay, weighted by the
 * inverse power of everything else (`rest`). Spectra are complex, interleaved.
 */
export function estimateDelay({
  a,
  b,
  path,
  rest,
}: {
  a: Float32Array;
  b: Float32Array;
  path: Float64Array;
  rest: Float64Array;
}): Delay {
  const perBin = Math.PI / (rest.length - 1);
  let [sum, weight] = [0, 0];
  for (let bin = 1, k = 2; bin < rest.length; bin++, k += 2) {
    const power = rest[bin]!;
    if (!(power > 0)) continue;
    const re = a[k]! * path[k]! - a[k + 1]! * path[k + 1]!;
    const im = a[k]! * path[k + 1]! + a[k + 1]! * path[k]!;
    const turn = bin * perBin;
    sum -= (turn * (re * (b[k + 1]! - im) - im * (b[k]! - re))) / power;
    weight += (turn * turn * (re * re + im * im)) / power;
  }
  return { late: weight > 0 ? sum / weight : 0, weight };
}

/** Weighted linear regression of the delays at these places: its slope, and the weighted mean place, where the line is taken to be 0. */
export function fitSlope(
  delays: readonly Delay[],
  places: readonly number[],
): { readonly slope: number; readonly middle: number } {
  const total = delays.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (delay: Delay, place: number) => number): number =>
    delays.reduce((sum, delay, i) => sum + (delay.weight / total) * of(delay, places[i]!), 0);
  if (!(total > 0)) return { slope: 0, middle: 0 };
  const middle = mean((_, place) => place);
  const late = mean((delay) => delay.late);
  const squares = mean((_, place) => (place - middle) ** 2);
  const slope = squares > 0 ? mean((delay, place) => (place - middle) * (delay.late - late)) / squares : 0;
  return { slope: Math.abs(slope) > MOST ? 0 : slope, middle };
}

/** Delays a sound by so many samples, in its spectrum, in place. */
export function delayBy(late: number, spectrum: Float32Array | Float64Array): void {
  const perBin = (-2 * Math.PI * late) / (spectrum.length - 2);
  const [stepRe, stepIm] = [Math.cos(perBin), Math.sin(perBin)];
  let [re, im] = [1, 0];
  for (let k = 0; k < spectrum.length; k += 2) {
    const [x, y] = [spectrum[k]!, spectrum[k + 1]!];
    spectrum[k] = x * re - y * im;
    spectrum[k + 1] = x * im + y * re;
    const next = re * stepRe - im * stepIm;
    im = re * stepIm + im * stepRe;
    re = next;
  }
}
