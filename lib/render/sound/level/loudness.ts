import { kWeighting } from "./kWeighting.js";

/** ITU-R BS.1770-4 Annex 1: blocks of 400 ms that overlap by 75 %, hence steps of 100 ms. */
const STEPS_PER_SECOND = 10;
const STEPS_PER_BLOCK = 4;
/** The recommendation's constant, which makes a sine of 997 Hz at full scale in one channel -3.01 LKFS. */
const OFFSET = -0.691;
/** Absolute gate: blocks below it are left out, in LKFS. */
const ABSOLUTE_GATE = -70;
/** Relative gate: blocks this far below the mean of the others are left out, in LU. */
const RELATIVE_GATE = -10;

/** Added to every sample, so that the filters do not decay into denormal numbers in silence: processors are about a hundred times slower with those. */
const TINY = 1e-25;

/**
 * Integrated loudness in LUFS after ITU-R BS.1770-4: K-weighted mean square of the channels with an absolute and a relative gate. `undefined`
 * when no block of 400 ms reaches -70 LUFS, and for less than 400 ms of sound. Silences do not lower the loudness: the gates leave them out.
 *
 * `channels`: left and right, or one alone; each has weight 1. Samples from -1 to 1.
 *
 * @example
 * integratedLoudness([new Float32Array(48000)], 48000) // undefined: silence has no loudness
 */
export function integratedLoudness(channels: readonly Float32Array[], rate: number): number | undefined {
  const powers = blockPowers(channels, rate);
  const heard = powers.filter((power) => loudnessOf(power) > ABSOLUTE_GATE);
  if (heard.length === 0) return undefined;
  const gate = loudnessOf(mean(heard)) + RELATIVE_GATE;
  // At least one block is as loud as the mean, so that some are always left.
  return loudnessOf(mean(heard.filter((power) => loudnessOf(power) > gate)));
}

function loudnessOf(power: number): number {
  return OFFSET + 10 * Math.log10(power);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function blockPowers(channels: readonly Float32Array[], rate: number): readonly number[] {
  const step = Math.round(rate / STEPS_PER_SECOND);
  const steps = new Float64Array(Math.floor((channels[0]?.length ?? 0) / step));
  for (const channel of channels) addStepEnergies(steps, channel, { step, rate });
  const powers: number[] = [];
  for (let i = 0; i + STEPS_PER_BLOCK <= steps.length; i++) {
    let energy = 0;
    for (let j = 0; j < STEPS_PER_BLOCK; j++) energy += steps[i + j]!;
    powers.push(energy / (STEPS_PER_BLOCK * step));
  }
  return powers;
}

/** Both filters in one pass, without a copy of the channel. */
function addStepEnergies(
  steps: Float64Array,
  channel: Float32Array,
  { step, rate }: { step: number; rate: number },
): void {
  const [first, second] = kWeighting(rate);
  const [b0, b1, b2] = first!.b;
  const [a1, a2] = first!.a;
  const [d0, d1, d2] = second!.b;
  const [c1, c2] = second!.a;
  let s1 = 0;
  let s2 = 0;
  let t1 = 0;
  let t2 = 0;
  let i = 0;
  for (let k = 0; k < steps.length; k++) {
    let energy = 0;
    for (const end = i + step; i < end; i++) {
      const x = channel[i]! + TINY;
      const y = b0 * x + s1;
      s1 = b1 * x - a1 * y + s2;
      s2 = b2 * x - a2 * y;
      const z = d0 * y + t1;
      t1 = d1 * y - c1 * z + t2;
      t2 = d2 * y - c2 * z;
      energy += z * z;
    }
    steps[k]! += energy;
  }
}
