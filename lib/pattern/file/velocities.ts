import type { Loudness, Note } from "../model.js";

/** What a velocity says of a note. */
export type Heard = Pick<Note, "accent" | "ghost" | "loudness">;

/** Velocities of the loudness marks, as rendering writes them (`lib/render/velocity.ts`). */
const MARKS: readonly (readonly [Loudness, number])[] = [
  ["pp", 44],
  ["p", 58],
  ["mp", 73],
  ["mf", 88],
  ["f", 98],
  ["ff", 108],
];
/** Least velocity of an accent, and what an accent adds. Our choice, near what notation programs write for accents (from memory). */
const ACCENT_VELOCITY = 110;
const ACCENT_ADDS = 24;
/** Velocities below this are ghost notes, and the share of its loudness that one has. Our choice: below the middle of a ghost note at mf (40) and a plain note at pp (44). */
const GHOST_BELOW = 42;
const GHOST_SHARE = 0.45;

/**
 * What the velocities of a part (1 to 127) say: from 110 on an accent, below 42 a ghost note, and the loudness mark whose velocity is nearest, the softer one
 * half-way. Where all plain notes have one mark the file says nothing of loudness: programs that write none give every note the same velocity.
 *
 * @example loudnessIn([44, 88, 112]) // pp; mf; mf with an accent
 */
export function loudnessIn(velocities: readonly number[]): readonly Heard[] {
  const heard = velocities.map((velocity): Heard => {
    if (velocity >= ACCENT_VELOCITY) return { accent: true, loudness: nearest(velocity, (mark) => Math.min(127, mark + ACCENT_ADDS)) };
    if (velocity < GHOST_BELOW) return { accent: false, ghost: true as const, loudness: nearest(velocity, (mark) => mark * GHOST_SHARE) };
    return { accent: false, loudness: nearest(velocity, (mark) => mark) };
  });
  const plain = new Set(heard.flatMap(({ accent, ghost, loudness }) => (accent || ghost ? [] : [loudness])));
  const isMarked = plain.size > 1;
  return isMarked ? heard : heard.map(({ loudness: _, ...rest }) => rest);
}

/** The mark whose velocity, changed so, is nearest. */
function nearest(velocity: number, changed: (mark: number) => number): Loudness {
  const away = (mark: number): number => Math.abs(changed(mark) - velocity);
  return MARKS.reduce((best, mark) => (away(mark[1]) < away(best[1]) ? mark : best))[0];
}
