import type { Alignment } from "./aligned.js";
import { alignedBacking } from "./aligned.js";
import type { OpenSound } from "./findBacking.js";
import { fourier, powerOfTwo, raisedCosine } from "./fourier.js";
import { openListening, openReader } from "./reader.js";
import { solveToeplitz } from "./toeplitz.js";

/** Length of the response, seconds: the direct sound and the early room; what comes later is masked instead (our choice). */
const RESPONSE = 0.2;
/** What of it lies before the place found, seconds: the strongest arrival is not always the first. */
const AHEAD = 0.003;
/** A spectrum covers this many times the response, so that what leaves the frame is little. */
const FRAME = 3;
/** Spectra that are looked at at most, spread over the recording (our choice: the error falls with the root of their number only). */
const MOST_FRAMES = 160;
/** Hertz over which the power of what is not backing is averaged. */
const SMOOTH = 40;
/** Rounds of weighting by what is left over. */
const ROUNDS = 2;

/** How the backing sounds in the recording: loudspeaker, room and phone together. */
export interface RoomPath {
  /** Impulse response at the rate of the recording. */
  readonly response: Float64Array;
  /** Samples of it that lie before the place found. */
  readonly ahead: number;
}

/**
 * The linear path from the aligned backing to the recording: the impulse response of least squares, each frequency of each frame weighted
 * by the inverse power of what is not backing there, so that the moments count in which the player is silent.
 */
export async function measurePath(
  recording: OpenSound,
  backing: OpenSound,
  alignment: Alignment & { readonly seconds: number },
): Promise<RoomPath | undefined> {
  let path: { response: Float64Array; ahead: number } | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const heard = await openListening(recording());
    const known = await openReader(backing());
    if (heard === undefined || known === undefined) return undefined;
    const { rate } = heard;
    const taps = Math.round(RESPONSE * rate);
    const ahead = Math.round(AHEAD * rate);
    const size = powerOfTwo(FRAME * taps);
    const transform = fourier(size);
    const window = raisedCosine(size);
    const smooth = Math.max(2, Math.round((SMOOTH * size) / rate));
    const before: Float64Array | undefined = path && transform.forward(path.response);
    const own = new Float64Array(2 * size);
    const cross = new Float64Array(2 * size);
    const aligned = alignedBacking(known, { ...alignment, rate });
    const begin = Math.max(0, Math.round(alignment.start * rate));
    const length = Math.max(size, (alignment.start + alignment.seconds) * rate - begin);
    const hop = Math.max(size / 2, length / MOST_FRAMES);
    const rest = new Float64Array(size / 2 + 1);
    for (let at = begin; at < begin + length; at += hop) {
      const from = Math.round(at);
      const y = await heard.read(from, size);
      if (heard.length !== undefined && from + size / 2 > heard.length) break;
      const x = await aligned(from + ahead, size);
      for (let i = 0; i < size; i++) {
        x[i]! *= window[i]!;
        y[i]! *= window[i]!;
      }
      const [a, b] = [transform.forward(x), transform.forward(y)];
      restOf(rest, { a, b, path: before });
      addWeighted({ own, cross, rest: smoothed(rest, smooth), a, b });
    }
    await Promise.all([heard.close(), known.close()]);
    path = { response: responseOf({ own, cross, taps, transform }), ahead };
  }
  return path;
}

/** The power of what is not backing in each bin, by the path of the round before; all of it in the first round. */
function restOf(
  rest: Float64Array,
  { a, b, path }: { a: Float64Array; b: Float64Array; path: Float64Array | undefined },
): void {
  for (let bin = 0; bin < rest.length; bin++) {
    const k = 2 * bin;
    let [re, im] = [b[k]!, b[k + 1]!];
    if (path !== undefined) {
      re -= a[k]! * path[k]! - a[k + 1]! * path[k + 1]!;
      im -= a[k]! * path[k + 1]! + a[k + 1]! * path[k]!;
    }
    rest[bin] = re * re + im * im;
  }
}

function smoothed(values: Float64Array, reach: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i]! + values[i]!;
  return Float64Array.from(values, (_, i) => {
    const [low, high] = [Math.max(0, i - reach), Math.min(values.length, i + reach + 1)];
    return (sums[high]! - sums[low]!) / (high - low);
  });
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
  a: Float64Array;
  b: Float64Array;
}): void {
  let mean = 0;
  for (const power of rest) mean += power / rest.length;
  if (!(mean > 0)) return;
  for (let bin = 0; bin < rest.length; bin++) {
    const k = 2 * bin;
    // A floor 80 dB down: digital silence must not count without end.
    const weight = 1 / (rest[bin]! + 1e-8 * mean + 1e-12);
    own[k]! += weight * (a[k]! ** 2 + a[k + 1]! ** 2);
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
  transform: { readonly size: number; inverse(spectrum: Float64Array): Float64Array };
}): Float64Array {
  const row = transform.inverse(own).subarray(0, taps);
  const right = transform.inverse(cross).subarray(0, taps);
  const direct = right.reduce((most, value) => Math.max(most, Math.abs(value)), 0) / row[0]!;
  if (!(direct > 0)) return new Float64Array(taps);
  const loaded = Float64Array.from(row);
  loaded[0]! += taps / transform.size / (2 * direct ** 2);
  return solveToeplitz(loaded, Float64Array.from(right));
}
