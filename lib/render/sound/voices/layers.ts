/** How hard a note is played, of which its sound depends beside its level. */
export type Layer = "soft" | "usual" | "loud";

/** Velocities from which a note sounds as of a layer: ghost notes and what is marked p or softer, and accents; our choice. */
const [USUAL, LOUD] = [62, 105];

export function layerOf(velocity: number): Layer {
  return velocity < USUAL ? "soft" : velocity < LOUD ? "usual" : "loud";
}

/** Sounds of a repeated stroke that differ a little; our choice, more are not told apart and cost a telephone time. */
const VARIANTS = 3;
/** Most that a repeated stroke differs in level, dB either way; our choice. */
const WIDEST = 0.5;

/** Places in a phrase that differ: finer than notes are written, and so coarse that rounding to samples moves nothing. */
const PLACES = 960;

/** A stroke of its place in the phrase: which of its sounds it has, and how its level differs. */
export interface Variation {
  readonly variant: number;
  /** A factor near 1. */
  readonly level: number;
}

/**
 * The variation of a stroke follows from its place alone, so that a phrase sounds the same in every mix, and phrases follow on one another in a loop. `place` is the share of the phrase before it.
 * Knuth's multiplicative hash (The Art of Computer Programming, volume 3, section 6.4; from memory).
 */
export function variationAt(place: number, key: number): Variation {
  const at = Math.round(place * PLACES) % PLACES;
  const mixed = Math.imul(Math.imul(at, 2654435761) ^ (key * 40503), 2654435761) >>> 0;
  const share = mixed / 2 ** 32;
  return { variant: mixed % VARIANTS, level: 10 ** ((WIDEST * (2 * share - 1)) / 20) };
}
