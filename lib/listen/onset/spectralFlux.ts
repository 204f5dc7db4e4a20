import type { SpectrumShape } from "../signal/spectrumShape.js";
import { filterBank } from "./filterBank.js";

/** Level of a band, beside the loudest band of late, at which the logarithm takes over from the line; the published 1 is near it for music at usual levels. */
const KNEE = 0.015;
/** Time in which the loudest band of late falls by half, seconds (our choice: phrases, not notes). */
const LEVEL_HALVES = 6;
/** How far the knee stands above the steady floor of a band (our choice: noise stays in the linear part). */
const ABOVE_FLOOR = 4;
/** Time in which the floor may double, seconds: longer than notes last; and the share of the way down it takes in a frame (our choice). */
const FLOOR_DOUBLES = 3;
const FLOOR_FALLS = 0.1;

/** The bands of the latest spectra, and what rises in them. */
export interface SpectralFlux {
  readonly push: (magnitudes: Float32Array) => void;
  /** The sum over bands of what the logarithm of the magnitude gained between two frames counted back from the last, in decades. */
  readonly rise: (later: number, earlier: number) => number;
}

/**
 * Spectral flux with a maximum filter over frequency, so that vibrato is no rise (Boeck & Widmer 2013, DAFx-13, pp. 55-61).
 *
 * Departure: magnitudes are compressed about a knee that follows the loudest band of late and the steady floor of each band, instead of a
 * fixed one, so that neither gain nor steady noise matter. `before` is what sounded before the first frame.
 */
export function spectralFlux(
  shape: SpectrumShape,
  { kept, before }: { kept: number; before: Float32Array },
): SpectralFlux {
  const bands = filterBank(shape);
  const framesASecond = shape.rate / shape.hop;
  const levelKept = 0.5 ** (1 / (LEVEL_HALVES * framesASecond));
  const floorRises = 2 ** (1 / (FLOOR_DOUBLES * framesASecond));
  const past = Array.from({ length: kept }, () => before.slice());
  const floor = before.slice();
  let level = 0;
  let frames = 0;
  const follow = (now: Float32Array): void => {
    let loudest = 0;
    for (let b = 0; b < bands.count; b++) {
      const value = now[b]!;
      if (value > loudest) loudest = value;
      const steady = floor[b]!;
      floor[b] = value < steady ? steady + FLOOR_FALLS * (value - steady) : Math.min(value, steady * floorRises);
    }
    level = Math.max(level * levelKept, loudest);
  };
  const rise = (now: Float32Array, then: Float32Array): number => {
    if (level === 0) return 0;
    const least = KNEE * level;
    const last = bands.count - 1;
    let sum = 0;
    let product = 1;
    for (let b = 0; b <= last; b++) {
      const value = now[b]!;
      let low = then[b]!;
      if (b > 0 && then[b - 1]! > low) low = then[b - 1]!;
      if (b < last && then[b + 1]! > low) low = then[b + 1]!;
      if (value <= low) continue;
      const knee = least + ABOVE_FLOOR * floor[b]!;
      product *= (knee + value) / (knee + low);
      // One logarithm for many bands; a product of this size leaves room for the next factor.
      if (product < 1e200) continue;
      sum += Math.log10(product);
      product = 1;
    }
    return sum + Math.log10(product);
  };
  const back = (count: number): Float32Array => past[(((frames - 1 - count) % kept) + kept) % kept]!;
  return {
    push: (magnitudes) => {
      const now = past[frames % kept]!;
      bands.sum(magnitudes, now);
      follow(now);
      frames++;
    },
    rise: (later, earlier) => rise(back(later), back(earlier)),
  };
}
