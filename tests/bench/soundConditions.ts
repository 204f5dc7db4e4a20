/** What happens to a take on its way to the recording: a room, noise, the backing from a loudspeaker. */
import FFT from "fft.js";
import { random } from "../../lib/base/index.js";

/** A room: reverberation time, delay before the first reflection (seconds), and power of what is reflected beside the direct sound. Our choice: a practice room. */
const ROOM = { sixtyDecibels: 0.45, delay: 0.004, reflected: 0.5 } as const;

/** The sound in a room whose response is decaying noise. */
export function inRoom(samples: Float32Array, { rate, seed }: { rate: number; seed: string }): Float32Array {
  const chance = random(seed);
  const length = Math.round(ROOM.sixtyDecibels * rate);
  const response = Float64Array.from({ length }, (_, i) =>
    i < ROOM.delay * rate ? 0 : chance.normal() * 10 ** ((-3 * i) / (ROOM.sixtyDecibels * rate)),
  );
  const power = response.reduce((sum, value) => sum + value * value, 0);
  for (let i = 0; i < length; i++) response[i] = response[i]! * Math.sqrt(ROOM.reflected / power);
  response[0] = 1;
  return filtered(samples, response);
}

/** The sound with white noise so many decibels below its root mean square. */
export function withNoise(samples: Float32Array, { decibels, seed }: { decibels: number; seed: string }): Float32Array {
  const chance = random(seed);
  const level = rootMeanSquare(samples) * 10 ** (-decibels / 20);
  return samples.map((sample) => sample + level * chance.normal());
}

/** The sound with another, so many decibels below its root mean square. */
export function withBleed(samples: Float32Array, other: Float32Array, decibels: number): Float32Array {
  const gain = (rootMeanSquare(samples) / rootMeanSquare(other)) * 10 ** (-decibels / 20);
  return samples.map((sample, i) => sample + gain * (other[i] ?? 0));
}

function rootMeanSquare(samples: Float32Array): number {
  return Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / Math.max(1, samples.length));
}

/** Convolution, by blocks in the frequency domain (overlap and add); as long as the samples. */
function filtered(samples: Float32Array, response: Float64Array): Float32Array {
  const size = 2 ** Math.ceil(Math.log2(2 * response.length));
  const block = size - response.length + 1;
  const transform = new FFT(size);
  const spectrumOf = (values: Float64Array | Float32Array): Float64Array => {
    const data = new Float64Array(2 * size);
    values.forEach((value, i) => {
      data[2 * i] = value;
    });
    const out = new Float64Array(2 * size);
    transform.transform(out, data);
    return out;
  };
  const path = spectrumOf(response);
  const sum = new Float32Array(samples.length + size);
  const back = new Float64Array(2 * size);
  for (let from = 0; from < samples.length; from += block) {
    const part = spectrumOf(samples.subarray(from, from + block));
    for (let k = 0; k < 2 * size; k += 2) {
      const real = part[k]! * path[k]! - part[k + 1]! * path[k + 1]!;
      part[k + 1] = part[k]! * path[k + 1]! + part[k + 1]! * path[k]!;
      part[k] = real;
    }
    transform.inverseTransform(back, part);
    for (let i = 0; i < size; i++) sum[from + i] = sum[from + i]! + back[2 * i]!;
  }
  return sum.slice(0, samples.length);
}
