/** Oversampling factor: twice the 4 of ITU-R BS.1770-4 Annex 2. */
const OVERSAMPLING = 8;
/** Half the length of the interpolation filter, in samples. */
const REACH = 16;
/** Kaiser window, beta 8: stop band about 80 dB down (from memory). */
const BETA = 8;
/** Samples to a stretch; not fewer than REACH, so that the filter reaches no further than the neighbouring stretches. */
export const STRETCH = 16;

/**
 * The largest error of the method, in dB; it reads too low. A sine just below half the rate may peak half-way between two values:
 * 20 log10(cos(pi / (2 * 8))) = 0.169.
 */
export const UNDER_READING: number = -20 * Math.log10(Math.cos(Math.PI / (2 * OVERSAMPLING)));

/** Filter weights for each point between two samples, in eighths of a sample; each row begins REACH - 1 samples before the point. */
const ROWS: readonly Float64Array[] = Array.from({ length: OVERSAMPLING - 1 }, (_, i) => row((i + 1) / OVERSAMPLING));
/** Largest ratio of a value between samples to the highest sample near it. */
const MOST = Math.max(...ROWS.map((weights) => weights.reduce((sum, weight) => sum + Math.abs(weight), 0)));

/**
 * True peak: the highest absolute value of the signal on and between samples, over all channels, linear (1 is full scale); 0 for silence.
 *
 * Eightfold oversampling by a windowed sinc of 32 samples (Kaiser, beta 8); ITU-R BS.1770-4 Annex 2 asks for fourfold at least.
 * Stretches whose samples are too low to contain the peak are skipped; this does not change the result.
 *
 * @example
 * truePeak([Float32Array.of(0, 0, 0, 0)]) // 0
 */
export function truePeak(channels: readonly Float32Array[]): number {
  const stretches = channels.map(highestByStretch);
  let peak = stretches.reduce((most, each) => each.reduce((a, b) => Math.max(a, b), most), 0);
  const room = new Float64Array(STRETCH + 2 * REACH - 1);
  channels.forEach((channel, c) => {
    const highest = stretches[c]!;
    for (let i = 0; i < highest.length; i++) {
      const near = Math.max(highest[i - 1] ?? 0, highest[i]!, highest[i + 1] ?? 0);
      if (near * MOST > peak) peak = Math.max(peak, between(channel, i * STRETCH, room));
    }
  });
  return peak;
}

/** The true peak of each stretch of STRETCH samples where it is above `above`; the highest sample elsewhere, which is not exact there. */
export function peaksByStretch(channels: readonly Float32Array[], above: number): Float64Array {
  const room = new Float64Array(STRETCH + 2 * REACH - 1);
  const peaks = new Float64Array(Math.ceil((channels[0]?.length ?? 0) / STRETCH));
  for (const channel of channels) {
    const highest = highestByStretch(channel);
    for (let i = 0; i < highest.length; i++) {
      const near = Math.max(highest[i - 1] ?? 0, highest[i]!, highest[i + 1] ?? 0);
      const here = near * MOST > above ? Math.max(highest[i]!, between(channel, i * STRETCH, room)) : highest[i]!;
      if (here > peaks[i]!) peaks[i] = here;
    }
  }
  return peaks;
}

/** The highest absolute sample of each stretch. */
function highestByStretch(channel: Float32Array): Float64Array {
  const highest = new Float64Array(Math.ceil(channel.length / STRETCH));
  for (let i = 0; i < highest.length; i++) {
    let most = 0;
    const end = Math.min((i + 1) * STRETCH, channel.length);
    for (let j = i * STRETCH; j < end; j++) {
      const value = channel[j]!;
      if (value > most) most = value;
      else if (-value > most) most = -value;
    }
    highest[i] = most;
  }
  return highest;
}

/** The highest absolute value between the samples of a stretch; `near` is a buffer for the samples that the filter needs. */
function between(channel: Float32Array, from: number, near: Float64Array): number {
  for (let i = 0; i < near.length; i++) near[i] = channel[from + i - REACH + 1] ?? 0;
  let most = 0;
  for (const weights of ROWS) {
    for (let i = 0; i < STRETCH; i++) {
      let value = 0;
      for (let k = 0; k < 2 * REACH; k++) value += weights[k]! * near[i + k]!;
      if (value > most) most = value;
      else if (-value > most) most = -value;
    }
  }
  return most;
}

function row(place: number): Float64Array {
  const weights = Float64Array.from({ length: 2 * REACH }, (_, k) => {
    const distance = place - (k - REACH + 1);
    return (Math.sin(Math.PI * distance) / (Math.PI * distance)) * kaiser(distance / REACH);
  });
  // The weights add up to 1, so that a constant signal stays the same.
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

function kaiser(x: number): number {
  return Math.abs(x) >= 1 ? 0 : bessel(BETA * Math.sqrt(1 - x * x)) / bessel(BETA);
}

/** Modified Bessel function of the first kind and order 0, by its power series. */
function bessel(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
