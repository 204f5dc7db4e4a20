import type { Score } from "../../../lib/schema/index.js";

/** A note later than this after the return is no landing: our choice, a bar of common time. */
const LATEST_BEATS = 4;
const SAME = 1e-6;

/**
 * For each dropout the index of its landing note, the first note expected at or after the return: -1 when nothing returns, or when that note
 * comes more than four beats later or in the next silence.
 */
export function landingNotes({ expected, dropouts, beat }: Score): readonly number[] {
  return dropouts.map(({ landing }, index) => {
    if (landing === null) return -1;
    const end = Math.min(dropouts[index + 1]?.from ?? Infinity, landing + LATEST_BEATS * beat);
    const note = expected.findIndex(({ at }) => at >= landing - SAME);
    return note >= 0 && expected[note]!.at < end - SAME ? note : -1;
  });
}
