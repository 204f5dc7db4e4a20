import type { Attack } from "../families.js";
import type { SpectrumShape } from "../signal/spectrumShape.js";
import { filterBank } from "./filterBank.js";
import { type Peak, peakPicker } from "./peakPicking.js";
import { type SpectralFlux, spectralFlux } from "./spectralFlux.js";

/** The first frames, from whose middle values it is told what sounded before the recording began, seconds; our choice, longer than most notes. */
const BEGINNING = 0.5;
/** Frames the flux keeps: more than a peak needs to be known. */
const FRAMES_KEPT = 32;

/** Finds the frames in which notes may begin. */
export interface FluxPeaks {
  readonly push: (magnitudes: Float32Array) => readonly Peak[];
  /** The peaks of a recording that ended before its beginning was over. */
  readonly finish: () => readonly Peak[];
}

/**
 * Peaks of the spectral flux. The first half second is held back: the median of each bin over that time stands for what sounded before the
 * recording. So a note on the first sample is found, and a recording that starts while something sounds gives no false onset.
 */
export function fluxPeaks(shape: SpectrumShape, attack: Attack): FluxPeaks {
  const held: Float32Array[] = [];
  let flux: SpectralFlux | undefined;
  let peak: (() => Peak | undefined) | undefined;
  const next = (magnitudes: Float32Array): readonly Peak[] => {
    flux!.push(magnitudes);
    const found = peak!();
    return found === undefined ? [] : [found];
  };
  const begin = (): readonly Peak[] => {
    const bands = filterBank(shape);
    const before = new Float32Array(bands.count);
    bands.sum(medians(held, shape.size / 2), before);
    flux = spectralFlux(shape, { kept: FRAMES_KEPT, before });
    peak = peakPicker(shape, flux, attack);
    return held.splice(0).flatMap(next);
  };
  return {
    push: (magnitudes) => {
      if (flux !== undefined) return next(magnitudes);
      held.push(magnitudes.slice());
      return held.length * shape.hop < BEGINNING * shape.rate ? [] : begin();
    },
    finish: () => (flux === undefined ? begin() : []),
  };
}

function medians(rows: readonly Float32Array[], width: number): Float32Array {
  const column = new Float32Array(rows.length);
  return Float32Array.from({ length: width }, (_, k) => {
    for (const [i, row] of rows.entries()) column[i] = row[k]!;
    return column.sort()[rows.length >> 1] ?? 0;
  });
}
