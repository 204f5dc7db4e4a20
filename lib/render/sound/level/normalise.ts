import { integratedLoudness } from "./loudness.js";
import { truePeak, UNDER_READING } from "./truePeak.js";

/** Programme loudness of EBU R 128 in LUFS: quiet beside most recorded music, which suits playing along, and it leaves peaks whole. */
export const USUAL_LOUDNESS = -23;
/** Highest true peak of EBU R 128 in dBTP. */
export const USUAL_PEAK = -1;

/** What a mix was brought to. */
export interface Level {
  /** LUFS; `undefined` for silence. */
  readonly loudness: number | undefined;
  /** dBTP, as measured; `undefined` for silence. */
  readonly peak: number | undefined;
  /** dB. */
  readonly gain: number;
  readonly heldBack: boolean;
}

/**
 * Brings a mix to a loudness in place, by one gain for the whole of it: no limiter, so that every note keeps its shape and its start.
 *
 * Where the highest true peak would be passed, what the measurement may miss included, the gain is lowered to it and the mix stays quieter.
 * Silence is left as it is.
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
