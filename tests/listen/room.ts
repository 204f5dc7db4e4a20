/** A room with a loudspeaker and a phone, made by plain formulas that share nothing with what is tested. */
import FFT from "fft.js";
import { random } from "../../lib/base/index.js";
import type { SoundStream } from "../../lib/formats/sound/soundStream.js";

/** Samples as a stream of blocks. */
export async function* streamOf(samples: Float32Array, rate: number, block = 4096): SoundStream {
  for (let from = 0; from < samples.length; from += block)
    yield { rate, channels: [samples.subarray(from, from + block)] };
}

/**
 * Samples as another device records them: its rate, the second at which the first sample arrives, and how much longer everything lasts on
 * its clock. Interpolation by a sinc of 24 zero crossings under a raised cosine, tabulated a thousandfold.
 */
export function heardBy(
  samples: Float32Array,
  {
    from,
    rate,
    start,
    skewPpm,
    seconds,
  }: { from: number; rate: number; start: number; skewPpm: number; seconds: number },
): Float32Array {
  const out = new Float32Array(Math.round(seconds * rate));
  const step = from / rate / (1 + skewPpm * 1e-6);
  const cutoff = Math.min(1, 0.97 / step);
  const reach = CROSSINGS / cutoff;
  for (let i = 0; i < out.length; i++) {
    const place = (i - start * rate) * step;
    const low = Math.max(0, Math.ceil(place - reach));
    const high = Math.min(samples.length - 1, Math.floor(place + reach));
    let sum = 0;
    for (let k = low; k <= high; k++) {
      const x = Math.abs(place - k) * cutoff * FINE;
      const cell = Math.floor(x);
      sum += samples[k]! * (TABLE[cell]! + (x - cell) * (TABLE[cell + 1]! - TABLE[cell]!));
    }
    out[i] = sum * cutoff;
  }
  return out;
}

const CROSSINGS = 24;
const FINE = 1000;
const TABLE = Float64Array.from({ length: CROSSINGS * FINE + 2 }, (_, i) => {
  const x = i / FINE;
  const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
  return x >= CROSSINGS ? 0 : sinc * Math.cos((Math.PI * x) / (2 * CROSSINGS)) ** 2;
});

/** The sum of what comes straight and of a diffuse tail that falls by 60 dB in `seconds`, `direct` dB below it. */
export function inRoom(
  samples: Float32Array,
  { rate, seconds, direct, seed }: { rate: number; seconds: number; direct: number; seed: string },
): Float32Array {
  const chance = random(seed);
  const response = new Float64Array(Math.round(seconds * rate));
  let power = 0;
  for (let i = 1; i < response.length; i++) {
    response[i] = chance.normal() * Math.exp((-6.9078 * i) / response.length);
    power += response[i]! ** 2;
  }
  const scale = 10 ** (-direct / 20) / Math.sqrt(power);
  for (let i = 1; i < response.length; i++) response[i]! *= scale;
  response[0] = 1;
  return convolved(samples, response);
}

/** Samples through a filter given by its impulse response, cut to their own length (overlap-add). */
function convolved(samples: Float32Array, response: Float64Array): Float32Array {
  const size = 2 ** Math.ceil(Math.log2(2 * response.length + 2));
  const transform = new FFT(size);
  const spectrumOf = (piece: ArrayLike<number>): Float64Array => {
    const input = new Float64Array(size);
    input.set(piece);
    const spectrum = new Float64Array(2 * size);
    transform.realTransform(spectrum, input);
    transform.completeSpectrum(spectrum);
    return spectrum;
  };
  const filter = spectrumOf(response);
  const hop = size - response.length;
  const out = new Float32Array(samples.length);
  for (let from = 0; from < samples.length; from += hop) {
    const piece = spectrumOf(samples.subarray(from, from + hop));
    const product = new Float64Array(2 * size);
    for (let k = 0; k < 2 * size; k += 2) {
      product[k] = piece[k]! * filter[k]! - piece[k + 1]! * filter[k + 1]!;
      product[k + 1] = piece[k]! * filter[k + 1]! + piece[k + 1]! * filter[k]!;
    }
    const turned = new Float64Array(2 * size);
    transform.inverseTransform(turned, product);
    for (let i = 0; i < size && from + i < out.length; i++) out[from + i]! += turned[2 * i]!;
  }
  return out;
}

/** White noise of a level, dBFS (RMS). */
export function noise(length: number, { level, seed }: { level: number; seed: string }): Float32Array {
  const chance = random(seed);
  const height = 10 ** (level / 20);
  return Float32Array.from({ length }, () => height * chance.normal());
}

/** The sum of sounds of one length or shorter. */
export function mixed(...sounds: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(Math.max(...sounds.map(({ length }) => length)));
  for (const sound of sounds) for (let i = 0; i < sound.length; i++) out[i]! += sound[i]!;
  return out;
}

/** A sound at `level` dB (RMS over the whole) above another. */
export function levelled(sound: Float32Array, beside: Float32Array, level: number): Float32Array {
  const factor = (10 ** (level / 20) * rms(beside)) / rms(sound);
  return sound.map((value) => value * factor);
}

function rms(sound: Float32Array): number {
  return Math.sqrt(sound.reduce((sum, value) => sum + value * value, 0) / sound.length);
}
