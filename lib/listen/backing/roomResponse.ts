import { hann } from "../signal/magnitudeSpectra.js";
import { type RealFft, realFft } from "../signal/realFft.js";
import type { Alignment } from "./alignedBacking.js";
import { delayBy, estimateDelay, fitSlope } from "./delayEstimate.js";
import { solveToeplitz } from "./levinson.js";
import { type Stretches, stretchSize } from "./stretches.js";

/** Hertz over which the power of what is not backing is averaged. */
const SMOOTH = 40;
/** Shares of the response that are measured in each round of weighting by what is left over: the beginning tells well enough where the player rests. */
const ROUNDS = [0.25, 0.5, 1] as const;

/** How the backing sounds in the recording: loudspeaker, room and phone together. */
export interface RoomPath {
  /** Impulse response at the rate of the recording. */
  readonly response: Float64Array;
  /** Samples of it that lie before the place found. */
  readonly ahead: number;
  /** How many samples later than aligned the backing is found in each stretch, by a straight line through all. */
  readonly late: readonly number[];
  /** The alignment by that line. */
  readonly alignment: Alignment;
}

/**
 * The linear path from the aligned backing to the recording: the impulse response of least squares, each frequency of each stretch weighted
 * by the inverse power of what is not backing there, so that the moments count in which the player is silent. The same weights tell how late
 * the backing is in each stretch, and so the skew more finely than whole windows do: high notes are out of step by a few microseconds.
 */
export function measureRoomPath({ rate, taps, ahead, all, alignment }: Stretches): RoomPath {
  const size = all[0]?.heard.length ?? stretchSize(taps);
  const transform = realFft(size);
  const window = hann(size);
  const input = new Float64Array(size);
  const spectrum = new Float64Array(size + 2);
  const shaped = (samples: Float32Array): Float32Array => {
    for (let i = 0; i < size; i++) input[i] = samples[i]! * window[i]!;
    return new Float32Array(transform.forward(input, spectrum));
  };
  const spectra = all.map(({ heard, known }) => ({ a: shaped(known), b: shaped(heard) }));
  const reach = Math.max(2, Math.round((SMOOTH * size) / rate));
  const rest = new Float64Array(size / 2 + 1);
  const means = new Float64Array(size / 2 + 1);
  const late = all.map(() => 0);
  const restIn = ({ a, b }: (typeof spectra)[number], before: Float64Array | undefined): Float64Array => {
    restOf(rest, { a, b, path: before });
    smooth(rest, reach, means);
    return means;
  };
  let [refined, response]: [Alignment, Float64Array] = [alignment, new Float64Array(taps)];
  for (const [round, share] of ROUNDS.entries()) {
    const before = round === 0 ? undefined : transform.forward(response);
    if (before !== undefined) {
      const delays = spectra.map((pair) => estimateDelay({ ...pair, path: before, rest: restIn(pair, before) }));
      const { slope, middle } = fitSlope(
        delays,
        all.map(({ from }) => from),
      );
      for (const [i, { from }] of all.entries()) {
        const more = slope * (from - middle);
        delayBy(more, spectra[i]!.a);
        late[i]! += more;
      }
      const { start, skewPpm } = refined;
      refined = { start: start + slope * (start - middle / rate), skewPpm: skewPpm + 1e6 * slope };
    }
    const own = new Float64Array(size + 2);
    const cross = new Float64Array(size + 2);
    // Half of the stretches tell well enough where to begin.
    for (let i = 0; i < spectra.length; i += round === 0 ? 2 : 1)
      addWeighted({ own, cross, rest: restIn(spectra[i]!, before), ...spectra[i]! });
    response = responseOf({ own, cross, taps: Math.round(share * taps), transform });
  }
  return { response, ahead, late, alignment: refined };
}

/** The power of what is not backing in each bin, by the path of the round before; all of it in the first round. */
function restOf(
  rest: Float64Array,
  { a, b, path }: { a: Float32Array; b: Float32Array; path: Float64Array | undefined },
): void {
  for (let bin = 0, k = 0; bin < rest.length; bin++, k += 2) {
    let re = b[k]!;
    let im = b[k + 1]!;
    if (path !== undefined) {
      re -= a[k]! * path[k]! - a[k + 1]! * path[k + 1]!;
      im -= a[k]! * path[k + 1]! + a[k + 1]! * path[k]!;
    }
    rest[bin] = re * re + im * im;
  }
}

/** The mean of the values up to `reach` from each. */
function smooth(values: Float64Array, reach: number, means: Float64Array): void {
  let sum = 0;
  for (let i = 0; i < reach; i++) sum += values[i]!;
  for (let i = 0; i < values.length; i++) {
    const low = Math.max(0, i - reach);
    const high = Math.min(values.length, i + reach + 1);
    if (i + reach < values.length) sum += values[i + reach]!;
    if (i > reach) sum -= values[i - reach - 1]!;
    // Rounding must not leave less than nothing where it is silent after a sound.
    means[i] = Math.max(0, sum) / (high - low);
  }
}

function addWeighted({
  own,
  cross,
  rest,
  a,
  b,
}: {
  own: Float64Array;
  cross: Float64Array;
  rest: Float64Array;
  a: Float32Array;
  b: Float32Array;
}): void {
  let mean = 0;
  for (let bin = 0; bin < rest.length; bin++) mean += rest[bin]!;
  mean /= rest.length;
  if (!(mean > 0)) return;
  for (let bin = 0, k = 0; bin < rest.length; bin++, k += 2) {
    // A floor 80 dB down: digital silence must not count without end.
    const weight = 1 / (rest[bin]! + 1e-8 * mean + 1e-12);
    own[k]! += weight * (a[k]! * a[k]! + a[k + 1]! * a[k + 1]!);
    cross[k]! += weight * (b[k]! * a[k]! + b[k + 1]! * a[k + 1]!);
    cross[k + 1]! += weight * (b[k + 1]! * a[k]! - b[k]! * a[k + 1]!);
  }
}

/** The response of least squares, held near zero by what is known beforehand: its power is about that of the strongest arrival. */
function responseOf({
  own,
  cross,
  taps,
  transform,
}: {
  own: Float64Array;
  cross: Float64Array;
  taps: number;
  transform: RealFft;
}): Float64Array {
  const row = transform.inverse(own).subarray(0, taps);
  const right = transform.inverse(cross).subarray(0, taps);
  const direct = right.reduce((most, value) => Math.max(most, Math.abs(value)), 0) / row[0]!;
  if (!(direct > 0)) return new Float64Array(taps);
  const loaded = row.slice();
  loaded[0]! += taps / transform.size / (2 * direct ** 2);
  return solveToeplitz(loaded, right);
}
