import { powerOfTwo } from "../signal/realFft.js";
import { shortTimeSpectra } from "../signal/shortTimeSpectra.js";
import { slidingBuffer } from "../signal/slidingBuffer.js";

/** Frames in a second of every novelty curve; our choice: places are refined by samples afterwards. */
export const NOVELTY_RATE = 50;
/** Edges of the bands, hertz; our choice: octaves that phones both play and record. */
const EDGES = [150, 300, 600, 1200, 2400, 4800] as const;
/** Seconds of a frame: the resolution of a third of an octave at the lowest edge is not needed, that of an onset is. */
const FRAME = 0.04;
/** What is added to a band's power before the logarithm, as a share of its mean: steps far below the usual level do not count. */
const FLOOR = 1e-3;

/** How much louder each band gets from frame to frame: curves of mean 0 and SD 1, of one length. */
export interface NoveltyCurves {
  readonly bands: readonly Float32Array[];
  readonly frames: number;
}

/** Takes the novelty curves of one channel of this rate as its samples come in. */
export function noveltyCurves(rate: number): { push: (samples: Float32Array) => void; finish: () => NoveltyCurves } {
  const size = powerOfTwo(FRAME * rate);
  const hop = rate / NOVELTY_RATE;
  const samples = slidingBuffer(4 * size);
  const frames = shortTimeSpectra({ rate, size, hop }, samples);
  const bins = EDGES.map((edge) => Math.min(size / 2, Math.round((edge * size) / rate)));
  const powers = EDGES.slice(1).map(() => [] as number[]);
  const hear = (magnitudes: Float32Array): void => {
    for (let band = 0; band < powers.length; band++) {
      let power = 0;
      for (let k = bins[band]!; k < bins[band + 1]!; k++) power += magnitudes[k]! ** 2;
      powers[band]!.push(power);
    }
  };
  const push = (more: Float32Array): void => {
    // No more at a time than is remembered of what came before.
    for (let from = 0; from < more.length; from += size) {
      samples.push(more.subarray(from, from + size));
      frames.advance(hear);
    }
  };
  return {
    push,
    finish: () => {
      const count = Math.ceil(samples.length() / hop);
      // Silence after the end, until the last frame is full; frames come two by two.
      push(new Float32Array(size + Math.ceil(2 * hop)));
      return { bands: powers.map((curve) => rises(curve.slice(0, count))), frames: count };
    },
  };
}

function rises(powers: readonly number[]): Float32Array {
  const floor = (FLOOR * powers.reduce((sum, power) => sum + power, 0)) / powers.length || 1;
  const logs = Float64Array.from(powers, (power) => Math.log(power + floor));
  const rise = new Float32Array(logs.length);
  for (let i = 1; i < logs.length; i++) rise[i] = Math.max(0, logs[i]! - logs[i - 1]!);
  const mean = rise.reduce((sum, value) => sum + value, 0) / rise.length;
  const deviation = Math.sqrt(rise.reduce((sum, value) => sum + (value - mean) ** 2, 0) / rise.length) || 1;
  return rise.map((value) => (value - mean) / deviation);
}
