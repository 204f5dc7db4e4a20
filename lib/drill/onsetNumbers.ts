import { add, type Fraction, subtract, toNumber } from "../base/index.js";
import type { Note, Pattern } from "../pattern/index.js";
import { swungPosition } from "../time/index.js";

/** Positions nearer than this are the same: far below any note value, and above the rounding of sums. */
export const SAME = 1e-9;

/** One pattern serves many drills; what is asked of its notes each time is kept. */
const known = new WeakMap<readonly Note[], readonly number[]>();

/** Where notes begin, in whole notes from the phrase's downbeat, ascending, each position once. */
export function onsetNumbers(notes: readonly Note[]): readonly number[] {
  const before = known.get(notes);
  if (before !== undefined) return before;
  const positions = [...new Set(notes.map(({ position }) => toNumber(position)))].sort((a, b) => a - b);
  known.set(notes, positions);
  return positions;
}

const knownSpacing = new WeakMap<readonly Note[], Fraction | undefined>();

/** The shortest distance between neighbouring onsets of a repeated part, swing included; `undefined` for a part without notes. */
export function shortestSpacing(notes: readonly Note[], pattern: Pattern): Fraction | undefined {
  if (knownSpacing.has(notes)) return knownSpacing.get(notes);
  const onsets = notes.map(({ position }) => swungPosition(position, pattern.swing, pattern.bars));
  const ordered = onsets.map((exact) => ({ exact, near: toNumber(exact) })).sort((a, b) => a.near - b.near);
  let shortest: { apart: number; exact: Fraction } | undefined;
  ordered.forEach((onset, i) => {
    const [earlier, apart] =
      i > 0
        ? [ordered[i - 1]!, onset.near - ordered[i - 1]!.near]
        : [ordered.at(-1)!, onset.near + toNumber(pattern.length) - ordered.at(-1)!.near];
    if (apart < SAME || (shortest !== undefined && apart >= shortest.apart)) return;
    const between = subtract(onset.exact, earlier.exact);
    shortest = { apart, exact: i > 0 ? between : add(between, pattern.length) };
  });
  knownSpacing.set(notes, shortest?.exact);
  return shortest?.exact;
}
