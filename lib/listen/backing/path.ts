import { hann } from "../spectrum.js";
import { type Alignment, alignedBacking } from "./aligned.js";
import { delayBy, delayOf, slopeOf } from "./delay.js";
import { type Fourier, fourier, powerOfTwo } from "./fourier.js";
import type { SoundReader } from "./reader.js";
import { solveToeplitz } from "./toeplitz.js";

/** Length of the response, seconds: the direct sound and the early room; what comes later is masked instead (our choice). */
const RESPONSE = 0.2;
/** What of it lies before the place found, seconds: the strongest arrival is not always the first. */
const AHEAD = 0.003;
/** A spectrum covers this many times the response, so that what leaves the frame is little. */
const FRAME = 3;
/** Stretches that are looked at at most, spread over the recording (our choice: the error falls with the root of their number only). */
const MOST_STRETCHES = 160;
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

/** A stretch of the recording, and of the aligned backing `ahead` samples later, of one length. */
export interface Stretch {
  /** Number of its first sample in the recording. */
  readonly from: number;
  readonly heard: Float32Array;
  readonly known: Float32Array;
}

/** Stretches of the recording in which the backing sounds. */
export interface Stretches {
  readonly rate: number;
  /** Samples of the response, and those of them that lie before the place found. */
  readonly taps: number;
  readonly ahead: number;
  readonly all: readonly Stretch[];
  readonly alignment: Alignment;
}

/** Reads the stretches the path is measured on; both sounds are let go. */
export async function stretchesOf(
  recording: SoundReader,
  backing: SoundReader,
  alignment: Alignment & { readonly seconds: number },
): Promise<Stretches> {
  const { rate } = recording;
  const taps = Math.round(RESPONSE * rate);
  const ahead = Math.round(AHEAD * rate);
  const size = powerOfTwo(FRAME * taps);
  const aligned = alignedBacking(backing, { ...alignment, rate });
  const begin = Math.max(0, Math.round(alignment.start * rate));
  const length = Math.max(size, (alignment.start + alignment.seconds) * rate - begin);
  // What the response reaches back to is shared, so that whatever follows belongs to one stretch alone.
  const hop = Math.max(size - taps, length / MOST_STRETCHES);
  const all: Stretch[] = [];
  let read = Number.NEGATIVE_INFINITY;
  for (let at = begin; at < begin + length; at += hop) {
    const from = Math.round(at);
    // What the stretch before has as well is not read again.
    const shared = Math.max(0, read - from);
    const heard = joined(all.at(-1)?.heard, shared, await recording.read(from + shared, size - shared));
    if (recording.length !== undefined && from + size / 2 > recording.length) break;
    const known = joined(all.at(-1)?.known, shared, await aligned(from + shared + ahead, size - shared));
    all.push({ from, heard, known });
    read = from + size;
  }
  await Promise.all([recording.close(), backing.close()]);
  return { rate, taps, ahead, all, alignment };
}

function joined(before: Float32Array | undefined, shared: number, fresh: Float64Array): Float32Array {
  const whole = new Float32Array(shared + fresh.length);
  if (before !== undefined && shared > 0) whole.set(before.subarray(before.length - shared));
  whole.set(fresh, shared);
  return whole;
}

/**
 * The linear path from the aligned backing to the recording: the impulse response of least squares, each frequency of each stretch weighted
 * by the inverse power of what is not backing there, so that the moments count in which the player is silent. The same weights tell how late
 * the backing is in each stretch, and so the skew more finely than whole windows do: high notes are out of step by a few microseconds.
 */
export function measurePath({ rate, taps, ahead, all, alignment }: Stretches): RoomPath {
  const size = all[0]?.heard.length ?? powerOfTwo(FRAME * taps);
  const transform = fourier(size);
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
      const delays = spectra.map((pair) => delayOf({ ...pair, path: before, rest: restIn(pair, before) }));
      const { slope, middle } = slopeOf(
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
  transform: Fourier;
}): Float64Array {
  const row = transform.inverse(own).subarray(0, taps);
  const right = transform.inverse(cross).subarray(0, taps);
  const direct = right.reduce((most, value) => Math.max(most, Math.abs(value)), 0) / row[0]!;
  if (!(direct > 0)) return new Float64Array(taps);
  const loaded = row.slice();
  loaded[0]! += taps / transform.size / (2 * direct ** 2);
  return solveToeplitz(loaded, right);
}
