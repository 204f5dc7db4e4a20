import type { Attack } from "../families.js";
import { type PairOfSpectra, pairOfSpectra } from "../signal/magnitudeSpectra.js";
import type { SlidingBuffer } from "../signal/slidingBuffer.js";

/** The attack of a note: how much of its new spectrum sounds at each step. */
export interface AttackEnvelope {
  /** Sample in the middle of the first step. */
  readonly from: number;
  /** Samples from step to step. */
  readonly step: number;
  /** How much of the new note's spectrum there is; its unit is power. */
  readonly values: Float64Array;
}

/** What lies before the attack, and what comes of it, seconds around the frame in which the flux was highest; our choice. */
const BEFORE = { from: -0.1, to: -0.05, steps: 6 };
const AFTER = { from: 0, to: 0.05 };
/** How long after that frame a note may begin, seconds; our choice: a window of the flux is 46 ms. */
export const LATE = 0.03;

/**
 * Envelopes of attacks, at a finer step than the frames of the flux. Each spectrum is weighted by the increase from before the attack to after
 * it, so that a note that still sounds does not count.
 */
export function attackEnvelopes(
  rate: number,
  attack: Attack,
): (samples: SlidingBuffer, middle: number) => AttackEnvelope {
  const size = 2 ** Math.round(Math.log2(attack.window * rate));
  const spectra = pairOfSpectra({ size });
  const step = Math.max(1, Math.round(attack.step * rate));
  // Room for the rise before and after the place that is looked for.
  const first = Math.round((-attack.early - 2 * attack.rise) * rate);
  const count = 1 + Math.ceil(((LATE + 2 * attack.rise) * rate - first) / step);
  const rows = Array.from({ length: count + (count % 2) }, () => new Float32Array(size / 2));
  const rest = Array.from({ length: BEFORE.steps }, () => new Float32Array(size / 2));
  const weights = new Float64Array(size / 2);
  const before = [BEFORE.from, (BEFORE.to - BEFORE.from) / (BEFORE.steps - 1)] as const;
  return (samples, middle) => {
    take(spectra, { samples, size, rows: rest }, (i) => middle + Math.round((before[0] + i * before[1]) * rate));
    take(spectra, { samples, size, rows }, (i) => middle + first + i * step);
    const from = Math.max(0, Math.round((AFTER.from * rate - first) / step));
    const to = Math.min(count, Math.round((AFTER.to * rate - first) / step));
    for (let k = 0; k < weights.length; k++) {
      let old = 0;
      let fresh = 0;
      for (const row of rest) if (row[k]! > old) old = row[k]!;
      for (let i = from; i < to; i++) if (rows[i]![k]! > fresh) fresh = rows[i]![k]!;
      weights[k] = Math.max(0, fresh - old);
    }
    const values = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const row = rows[i]!;
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k]! * row[k]!;
      values[i] = sum;
    }
    return { from: middle + first, step, values };
  };
}

function take(
  spectra: PairOfSpectra,
  { samples, size, rows }: { samples: SlidingBuffer; size: number; rows: readonly Float32Array[] },
  middleOf: (index: number) => number,
): void {
  const first = middleOf(0) - size / 2;
  const stretch = samples.at(first, middleOf(rows.length - 1) + size / 2 - first);
  for (let i = 0; i < rows.length; i += 2)
    spectra(stretch, [middleOf(i) - size / 2 - first, middleOf(i + 1) - size / 2 - first], [rows[i]!, rows[i + 1]!]);
}
