import type { Measure } from "../../schema/index.js";
import type { Offset } from "../state/fit.js";
import { firstAtOrAfter, type Stretch } from "../state/guide.js";
import type { Reading } from "../state/reading.js";

/** The first note at or after re-entry, and how soon the player is back. Milliseconds and beats. */
export interface Reentry {
  readonly offset: Measure | null;
  /** Standard error of the offset: that of the player's constant offset, since the note itself is heard exactly. */
  readonly standardError: number;
  readonly recovery: Measure | null;
}

// How long after re-entry a first note still answers it, in beats, and how many notes inside in a row are "back" (our choice).
const ANSWERS_WITHIN_BEATS = 4;
const BACK = 2;

interface Heard {
  readonly at: number;
  readonly off: number;
}

/** Where the first note at or after the end of a stretch fell against the player's own offset; `limitMs` says when the player is back inside. */
export function reentryAfter(
  { guide, asynchrony }: Reading,
  stretch: Stretch,
  { returns, offset, limitMs }: { readonly returns: boolean; readonly offset: Offset; readonly limitMs: number },
): Reentry {
  if (!returns) return { offset: null, standardError: 0, recovery: null };
  const next = guide.stretches.find(({ from }) => from > stretch.to)?.from ?? Number.POSITIVE_INFINITY;
  let first: Heard | undefined;
  let back: Heard | undefined;
  let run = 0;
  // Half a millisecond: the rounding of times in a score file.
  for (let place = firstAtOrAfter(guide.expected, stretch.to - 0.5); guide.expected[place]! < next; place++) {
    const heard = { at: guide.expected[place]!, off: asynchrony[place]! - offset.mean };
    if (Number.isNaN(heard.off)) continue;
    first ??= heard;
    const inside = Math.abs(heard.off) <= limitMs;
    if (inside && run === 0) back = heard;
    run = inside ? run + 1 : 0;
    if (run === BACK) break;
  }
  if (first === undefined || first.at > stretch.to + ANSWERS_WITHIN_BEATS * guide.beatMs) {
    const none = { unmeasured: `no expected note was played within ${ANSWERS_WITHIN_BEATS} beats of the re-entry` };
    return { offset: none, standardError: 0, recovery: none };
  }
  const recovery =
    back === undefined || run === 0
      ? { unmeasured: "the player was not back inside before the take ended or the next silence began" }
      : Math.max(0, (back.at - stretch.to) / guide.beatMs);
  return { offset: first.off, standardError: offset.sd, recovery };
}
