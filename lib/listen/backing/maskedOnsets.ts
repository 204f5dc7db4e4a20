import type { MaskedFrame } from "./residualMask.js";

/** A note is as strong as the strongest frame this long from its onset on, seconds: attacks of winds take so long. */
const SWELLS = 0.08;
/** Covered stretches nearer than this are one, and shorter ones are none, seconds: a note is not lost for less. Our choice. */
const JOINS = 0.15;
const SHORTEST = 0.03;
/** An onset that is left out is told of when it was this strong beside the player's usual ones, as power (-10 dB): our choice. */
const NOTABLE = 0.1;

/**
 * An onset whose flux rises less above its surroundings than `strength` (in what it takes to count at all), and whose power is below `above`
 * times what is expected to be left of the backing, may be the backing's: left out below the one, told of below the other. Our choice, on takes
 * made up for it: of the onsets a backing adds most are such, of a player's hardly any while the backing is 12 dB softer.
 */
const LEFT_OUT = { strength: 2.5, above: 6.3 } as const;
const TOLD_OF = { strength: 3, above: 100 } as const;

/** A stretch of a recording, seconds from its first sample. */
export interface CoveredStretch {
  readonly from: number;
  readonly to: number;
}

/** Which onsets are the player's, and where nobody can say. */
export interface Decided<Onset> {
  readonly onsets: readonly Onset[];
  /** Where a usual note of the player's would be hidden by what is left of the backing, and where an onset was left out; in order. */
  readonly undecidable: readonly CoveredStretch[];
}

/** What is to be decided about. */
interface Candidate {
  readonly at: number;
  /** As of `HeardOnset`. */
  readonly strength: number;
}

/**
 * Leaves out onsets that what is left of the backing could have made by itself, and tells the stretches in which a note as strong as the
 * player's usual ones (the median) would not stand out from it, or in which an onset that was kept may yet be the backing's. Without any onset
 * nothing is known of the player, and nothing is told.
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

/** Whether an onset does not stand out from what is left of the backing, or not by enough for a weak one. */
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
