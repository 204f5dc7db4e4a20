import { limit } from "./limit.js";
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
 * Normalises the loudness of a mix in place, with one gain for the whole mix where its peaks allow, so that every note keeps its envelope and its
 * onset. Where the true peak, with the largest error of its measurement added, would exceed `peak`, the mix is turned down around those peaks alone,
 * by at most 12 dB; a mix that needs more stays quieter than `loudness`. Silence is not changed.
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
  if (wanted <= room) {
    apply(channels, wanted);
    return { loudness, peak: highestBefore + wanted, gain: wanted, heldBack: false };
  }
  const limited = limitedTo(channels, { rate, loudness, ceiling: peak - UNDER_READING, least: room, wanted });
  for (const [c, channel] of limited.channels.entries()) channels[c]!.set(channel);
  const heldBack = limited.loudness < loudness - NEAR;
  return { loudness: limited.loudness, peak: 20 * Math.log10(truePeak(channels)), gain: limited.gain, heldBack };
}

/** Loudness counts as reached within this, LU; half a step of the usual meters. */
const NEAR = 0.05;
/** Most that peaks are turned down, dB; our choice: beyond it drums lose their attack. */
const MOST_LIMITED = 12;
/** Limiting lowers the loudness a little, so the gain is raised again; each time leaves about a fifth of the error. */
const TURNS = 6;

/** The mix at a gain between `least`, which needs no limiting, and 12 dB more, as near `loudness` as that allows. */
function limitedTo(
  channels: readonly Float32Array[],
  {
    rate,
    loudness,
    ceiling,
    least,
    wanted,
  }: { rate: number; loudness: number; ceiling: number; least: number; wanted: number },
): { readonly channels: readonly Float32Array[]; readonly loudness: number; readonly gain: number } {
  const most = least + MOST_LIMITED;
  let gain = Math.min(wanted, most);
  for (let turn = 1; ; turn++) {
    const copies = channels.map((channel) => channel.slice());
    apply(copies, gain);
    limit(copies, { rate, ceiling: 10 ** (ceiling / 20) });
    const reached = integratedLoudness(copies, rate)!;
    const next = Math.min(most, gain + loudness - reached);
    if (Math.abs(next - gain) < NEAR / 2 || turn === TURNS) return { channels: copies, loudness: reached, gain };
    gain = next;
  }
}

function apply(channels: readonly Float32Array[], gain: number): void {
  const factor = 10 ** (gain / 20);
  for (const channel of channels) for (let i = 0; i < channel.length; i++) channel[i]! *= factor;
}
