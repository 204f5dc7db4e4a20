import { integratedLoudness } from "./loudness.js";
import { truePeak, UNDER_READING } from "./truePeak.js";

/** Programme loudness of EBU R 128 in LUFS: quieter than most recorded music, which suits playing along and leaves room for peaks. */
export const USUAL_LOUDNESS = -23;
/** Highest true peak of EBU R 128 in dBTP. */
export const USUAL_PEAK = -1;

/** The level of a mix after normalisation. */
export interface Level {
  /** LUFS; `undefined` for silence. */
  readonly loudness: number | undefined;
  /** True peak in dBTP, as measured; `undefined` for silence. */
  readonly peak: number | undefined;
  /** The gain applied, dB. */
  readonly gain: number;
  readonly heldBack: boolean;
}

/**
 * Normalises the loudness of a mix in place, with one gain for the whole mix. There is no limiter, so every note keeps its envelope and its onset.
 *
 * The gain is lowered where the true peak, with the largest error of its measurement added, would exceed `peak`; the mix is then quieter than
 * `loudness`. Silence is not changed.
 */
export function normalise(
  channels: readonly Float32Array[],
  { rate, loudness, peak }: { rate: number; loudness: number; peak: number },
): Level {
  const before = integratedLoudness(channels, rate);
  const highest = truePeak(channels);
  if (before === undefined || highest === 0) return { loudness: undefined, peak: undefined, gain: 0, heldBack: false };
  const highestBefore = 20 * Math.log10(highest);
  const room = peak - UNDER_READING - highestBefore;
  const wanted = loudness - before;
  const gain = Math.min(wanted, room);
  const factor = 10 ** (gain / 20);
  for (const channel of channels) for (let i = 0; i < channel.length; i++) channel[i]! *= factor;
  return { loudness: before + gain, peak: highestBefore + gain, gain, heldBack: room < wanted };
}
