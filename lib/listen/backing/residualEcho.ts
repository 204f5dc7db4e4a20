import { pairOfSpectra } from "../signal/magnitudeSpectra.js";
import { type SpectrumShape, spectrumShapeAt } from "../signal/spectrumShape.js";
import { overlapSave } from "./echoCancellation.js";
import type { RoomPath } from "./roomResponse.js";
import type { Stretches } from "./stretches.js";

/** Bands of the residual echo: half octaves from 60 Hz up. Our choice: loudspeakers and rooms change no faster with frequency. */
const LOWEST = 60;
const PER_OCTAVE = 2;
/** Share of the moments, those with the lowest ratio of rest to backing, that show the residual echo alone. Our choice: players rest in more than that. */
const ALONE = 0.15;
/** Most stretches that are used, spread over the recording. Our choice: half a minute in all. */
const MOST_STRETCHES = 45;
/** A moment counts when the backing has this share of its highest power (-20 dB). In softer moments noise would count as residual echo. */
const LOUD = 0.01;
/** Correction for choosing the quietest moments: there a spectrum of noise lies below its mean by this factor of power. Measured on noise, rounded up. */
const ALLOWANCE = 2;

/** Most residual echo of a band beside the lower quartile of all bands, as a factor of power (3 dB). Our choice, from simulated rooms. */
const ALIKE = 2;

/** The part of the backing that echo cancellation leaves in the recording. */
export interface ResidualEcho {
  /** First bin of each band, and one more for the end. */
  readonly bins: readonly number[];
  /** Ratio of the power left to the power subtracted, for each band; 1 when the band tells nothing. */
  readonly shares: readonly number[];
}

/**
 * Measures the residual echo for this room response: in each band, the ratio of the power left to the power subtracted, at the moments in which
 * it is lowest.
 */
export function measureResidualEcho(
  { rate, taps, all }: Stretches,
  { response, late }: Pick<RoomPath, "response" | "late">,
): ResidualEcho {
  const shape = spectrumShapeAt(rate);
  const { size } = shape;
  const bins = bandBins(shape);
  const spectra = pairOfSpectra(shape);
  const pair = [new Float32Array(size / 2), new Float32Array(size / 2)] as const;
  const both = new Float32Array(2 * size);
  const rows = bins.slice(1).map(() => ({ left: [] as number[], taken: [] as number[] }));
  const filter = overlapSave(response, all[0]?.known.length ?? size);
  const apart = Math.max(1, all.length / MOST_STRETCHES);
  for (let at = 0; at < all.length; at += apart) {
    const { heard, known } = all[Math.floor(at)]!;
    const taken = filter(known, late[Math.floor(at)]);
    for (let from = taps; from + size <= heard.length; from += size) {
      for (let i = 0, t = from - taps + 1; i < size; i++, t++) {
        both[i] = heard[from + i]! - taken[t]!;
        both[size + i] = taken[t]!;
      }
      spectra(both, [0, size], pair);
      rows.forEach((row, band) => {
        row.left.push(powerIn(pair[0], bins[band]!, bins[band + 1]!));
        row.taken.push(powerIn(pair[1], bins[band]!, bins[band + 1]!));
      });
    }
  }
  const shares = rows.map(shareOf);
  // Where the player never rests, a band shows the player. The bands with the lowest ratios show the room.
  const likely = ALIKE * [...shares].sort((a, b) => a - b)[shares.length >> 2]!;
  return { bins, shares: shares.map((share) => Math.min(share, likely)) };
}

function shareOf({ left, taken }: { left: readonly number[]; taken: readonly number[] }): number {
  const loudest = taken.reduce((most, power) => Math.max(most, power), 0);
  const ratios = left.map((power, i) => (taken[i]! > LOUD * loudest ? power / taken[i]! : Number.NaN));
  const known = ratios.filter((ratio) => !Number.isNaN(ratio)).sort((a, b) => a - b);
  const quiet = known[Math.floor(ALONE * known.length)];
  return quiet === undefined ? 1 : Math.min(1, ALLOWANCE * quiet);
}

function bandBins({ rate, size }: SpectrumShape): readonly number[] {
  const bins = [0];
  for (let hertz = LOWEST; hertz < rate / 2; hertz *= 2 ** (1 / PER_OCTAVE)) {
    const bin = Math.round((hertz * size) / rate);
    if (bin > bins.at(-1)! + 1 && bin < size / 2) bins.push(bin);
  }
  return [...bins, size / 2];
}

function powerIn(magnitudes: Float32Array, from: number, to: number): number {
  let power = 0;
  for (let k = from; k < to; k++) power += magnitudes[k]! * magnitudes[k]!;
  return power;
}
