import type { SoundStream } from "../sound.js";
import { fourier, powerOfTwo, raisedCosine } from "./fourier.js";
import { openReader } from "./reader.js";

/** Frames in a second of every novelty curve; our choice: places are refined by samples afterwards. */
export const NOVELTY_RATE = 100;
/** Edges of the bands, hertz; our choice: octaves that phones both play and record. */
const EDGES = [150, 300, 600, 1200, 2400, 4800, 7600] as const;
/** Seconds of a frame: the resolution of a third of an octave at the lowest edge is not needed, that of an onset is. */
const FRAME = 0.04;
/** What is added to a band's power before the logarithm, as a share of its mean: steps far below the usual level do not count. */
const FLOOR = 1e-3;

/** How much louder each band gets from frame to frame: curves of mean 0 and SD 1, of one length. */
export interface Novelty {
  readonly bands: readonly Float32Array[];
  readonly frames: number;
  readonly seconds: number;
}

/** The novelty curves of a recording; `undefined` when it holds no sample. */
export async function noveltyOf(stream: SoundStream): Promise<Novelty | undefined> {
  const reader = await openReader(stream);
  if (reader === undefined) return undefined;
  const { rate } = reader;
  const size = powerOfTwo(FRAME * rate);
  const transform = fourier(size);
  const window = raisedCosine(size);
  const bins = EDGES.map((edge) => Math.min(size / 2, Math.round((edge * size) / rate)));
  const powers = EDGES.slice(1).map(() => [] as number[]);
  for (let frame = 0; ; frame++) {
    const at = Math.round((frame * rate) / NOVELTY_RATE);
    const samples = await reader.read(at - size / 2, size);
    if (reader.length !== undefined && at >= reader.length) break;
    for (let i = 0; i < size; i++) samples[i]! *= window[i]!;
    const spectrum = transform.forward(samples);
    powers.forEach((curve, band) => {
      let power = 0;
      for (let k = bins[band]!; k < bins[band + 1]!; k++) power += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
      curve.push(power);
    });
  }
  return { bands: powers.map(rises), frames: powers[0]!.length, seconds: reader.length! / rate };
}

function rises(powers: readonly number[]): Float32Array {
  const floor = (FLOOR * powers.reduce((sum, power) => sum + power, 0)) / powers.length || 1;
  const logs = powers.map((power) => Math.log(power + floor));
  // Over two frames, so that the place of an onset within a frame matters less.
  const rise = Float32Array.from(logs, (log, i) => (i < 2 ? 0 : Math.max(0, log - logs[i - 2]!)));
  const mean = rise.reduce((sum, value) => sum + value, 0) / rise.length;
  const spread = Math.sqrt(rise.reduce((sum, value) => sum + (value - mean) ** 2, 0) / rise.length) || 1;
  return rise.map((value) => (value - mean) / spread);
}
