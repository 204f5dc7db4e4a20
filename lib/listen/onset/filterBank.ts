import type { SpectrumShape } from "../signal/spectrumShape.js";

/** Bands an octave, and their range in Hz (Boeck & Widmer 2013, reference code). */
const PER_OCTAVE = 24;
const LOWEST = 30;
const HIGHEST = 17_000;
/** What an octave is counted from, Hz: bands lie on the quarter tones of concert pitch. */
const CONCERT_PITCH = 440;

/** Adds the bins of a spectrum up to bands. */
export interface FilterBank {
  readonly count: number;
  readonly sum: (magnitudes: Float32Array, bands: Float32Array) => void;
}

/** Overlapping triangular bands a quarter tone apart; where bins lie further apart than that, a bin has one band. */
export function filterBank({ rate, size }: SpectrumShape): FilterBank {
  const edges = edgesOf(rate / size, Math.min(HIGHEST, rate / 2), size / 2);
  const count = Math.max(0, edges.length - 2);
  const from: number[] = [];
  const start: number[] = [0];
  const weights: number[] = [];
  for (let band = 0; band < count; band++) {
    const [low, middle, high] = [edges[band]!, edges[band + 1]!, edges[band + 2]!];
    from.push(low + 1);
    for (let bin = low + 1; bin < high; bin++)
      weights.push(bin <= middle ? (bin - low) / (middle - low) : (high - bin) / (high - middle));
    start.push(weights.length);
  }
  const weight = Float64Array.from(weights);
  const first = Int32Array.from(from);
  const begin = Int32Array.from(start);
  const sum = (magnitudes: Float32Array, bands: Float32Array): void => {
    for (let band = 0; band < count; band++) {
      let total = 0;
      for (let i = begin[band]!, bin = first[band]!; i < begin[band + 1]!; i++, bin++)
        total += weight[i]! * magnitudes[bin]!;
      bands[band] = total;
    }
  };
  return { count, sum };
}

/** The bins nearest to the quarter tones from the lowest to the highest frequency, each once. */
function edgesOf(spacing: number, highest: number, bins: number): readonly number[] {
  const edges = new Set<number>();
  const lowest = Math.ceil(PER_OCTAVE * Math.log2(LOWEST / CONCERT_PITCH));
  const last = Math.floor(PER_OCTAVE * Math.log2(highest / CONCERT_PITCH));
  for (let tone = lowest; tone <= last; tone++) {
    const bin = Math.round((CONCERT_PITCH * 2 ** (tone / PER_OCTAVE)) / spacing);
    if (bin < bins) edges.add(bin);
  }
  return [...edges];
}
