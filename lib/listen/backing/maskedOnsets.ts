import type { MaskedFrame } from "./residualMask.js";

/** Seconds from an onset in which the strongest frame gives the power of the note: attacks of winds take so long. */
const SWELLS = 0.08;
/** Masked stretches nearer than JOINS are joined, and those shorter than SHORTEST are left out, seconds: no note is lost in less. Our choice. */
const JOINS = 0.15;
const SHORTEST = 0.03;
/** A removed onset is reported when its power is above this share of the player's median power (-10 dB). Our choice. */
const NOTABLE = 0.1;

/**
 * Limits below which an onset may be the backing's: its flux peak is lower than `strength` (in thresholds), and its power is lower than `above` times
 * the expected residual echo. Below LEFT_OUT it is removed; below TOLD_OF it is kept and reported. Our choice, from simulated takes: most onsets
 * that a backing adds are below the limits, and hardly any of a player's are while the backing is 12 dB softer.
 */
const LEFT_OUT = { strength: 2.5, above: 6.3 } as const;
const TOLD_OF = { strength: 3, above: 100 } as const;

/** A stretch of a recording, seconds from its first sample. */
export interface CoveredStretch {
  readonly from: number;
  readonly to: number;
}

/** The onsets of the player, and the stretches that stay undecidable. */
export interface Decided<Onset> {
  readonly onsets: readonly Onset[];
  /** Where the residual echo would hide a note of the player's median power, and where an onset was removed; in order. */
  readonly undecidable: readonly CoveredStretch[];
}

/** An onset before the decision. */
interface Candidate {
  readonly at: number;
  /** As of `HeardOnset`. */
  readonly strength: number;
}

/**
 * Removes onsets that the residual echo explains. Reports the stretches in which a note of the player's median power would not stand out from
 * the residual echo, and those in which a kept onset may be the backing's. Without onsets the median is unknown, so nothing is reported.
 */
export function decideOnsets<Onset extends Candidate>(
  onsets: readonly Onset[],
  frames: readonly MaskedFrame[],
): Decided<Onset> {
  if (onsets.length === 0) return { onsets, undecidable: [] };
  const powers = onsets.map(({ at }) => powersAt(frames, at));
  const usual = powers.map(({ left }) => left).sort((a, b) => a - b)[powers.length >> 1]!;
  const isKept = onsets.map((onset, i) => !isBelow(LEFT_OUT, onset, powers[i]!));
  const doubtful = onsets.filter((onset, i) =>
    isKept[i] ? isBelow(TOLD_OF, onset, powers[i]!) : powers[i]!.left > NOTABLE * usual,
  );
  const stretches = [
    ...joined(frames.filter(({ cover }) => cover >= usual).map(({ seconds }) => ({ from: seconds, to: seconds }))),
    ...doubtful.map(({ at }) => ({ from: at, to: at + SWELLS })),
  ].filter(({ from, to }) => to - from >= SHORTEST);
  return {
    onsets: onsets.filter((_, i) => isKept[i]),
    undecidable: joined(stretches.sort((a, b) => a.from - b.from)),
  };
}

/** Whether an onset is kept; the frames have to be there until 0.1 s after it. */
export function isSure(frames: readonly MaskedFrame[], onset: Candidate): boolean {
  return !isBelow(LEFT_OUT, onset, powersAt(frames, onset.at));
}

/** Whether an onset does not stand out from the residual echo, or, when it is weak, not by enough. */
function isBelow(limit: typeof LEFT_OUT | typeof TOLD_OF, { strength }: Candidate, { left, cover }: Powers): boolean {
  return left <= cover || (strength < limit.strength && left < limit.above * cover);
}

function joined(stretches: readonly CoveredStretch[]): readonly CoveredStretch[] {
  const whole: { from: number; to: number }[] = [];
  for (const { from, to } of stretches) {
    const last = whole.at(-1);
    if (last !== undefined && from - last.to < JOINS) last.to = Math.max(last.to, to);
    else whole.push({ from, to });
  }
  return whole;
}

/** The highest powers about an onset. */
type Powers = Pick<MaskedFrame, "left" | "cover">;

function powersAt(frames: readonly MaskedFrame[], at: number): Powers {
  let left = 0;
  let cover = 0;
  for (let i = firstFrom(frames, at - SWELLS / 4); i < frames.length && frames[i]!.seconds <= at + SWELLS; i++) {
    left = Math.max(left, frames[i]!.left);
    cover = Math.max(cover, frames[i]!.cover);
  }
  return { left, cover };
}

/** Index of the first frame at or after a time. */
function firstFrom(frames: readonly MaskedFrame[], seconds: number): number {
  let [low, high] = [0, frames.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (frames[middle]!.seconds < seconds) low = middle + 1;
    else high = middle;
  }
  return low;
}
