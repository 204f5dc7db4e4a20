import type { MaskedFrame } from "./mask.js";

/** A note is as strong as the strongest frame this long from its onset on, seconds: attacks of winds take so long. */
const SWELLS = 0.08;
/** Covered stretches nearer than this are one, and shorter ones are none, seconds: a note is not lost for less. Our choice. */
const JOINS = 0.15;
const SHORTEST = 0.03;
/** An onset that is left out is told of when it was this strong beside the player's usual ones, as power (-10 dB): our choice. */
const NOTABLE = 0.1;

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

/**
 * Leaves out onsets that what is left of the backing could have made by itself, and tells the stretches in which a note as strong as the
 * player's usual ones (the median) would not stand out from it. Without any onset nothing is known of the player, and nothing is told.
 */
export function decideOnsets<Onset extends { readonly at: number }>(
  onsets: readonly Onset[],
  frames: readonly MaskedFrame[],
): Decided<Onset> {
  const strengths = onsets.map(({ at }) => strengthAt(frames, at));
  if (onsets.length === 0) return { onsets, undecidable: [] };
  const sorted = strengths.map(({ left }) => left).sort((a, b) => a - b);
  const usual = sorted[sorted.length >> 1]!;
  const doubtful = onsets.filter((_, i) => !standsOut(strengths[i]!) && strengths[i]!.left > NOTABLE * usual);
  const stretches = [
    ...joined(frames.filter(({ cover }) => cover >= usual).map(({ seconds }) => ({ from: seconds, to: seconds }))),
    ...doubtful.map(({ at }) => ({ from: at, to: at + SWELLS })),
  ].filter(({ from, to }) => to - from >= SHORTEST);
  return {
    onsets: onsets.filter((_, i) => standsOut(strengths[i]!)),
    undecidable: joined(stretches.sort((a, b) => a.from - b.from)),
  };
}

/** Whether an onset, of which the frames are there until 0.1 s after it, is more than what is left of the backing could have made. */
export function isSure(frames: readonly MaskedFrame[], at: number): boolean {
  return standsOut(strengthAt(frames, at));
}

function standsOut({ left, cover }: { readonly left: number; readonly cover: number }): boolean {
  return left > cover;
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

function strengthAt(frames: readonly MaskedFrame[], at: number): { readonly left: number; readonly cover: number } {
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
