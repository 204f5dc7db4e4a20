/** How often notes are left out or added, as learnt from a take. */
export interface Chances {
  /** Chance that an expected note is left out. */
  readonly missing: number;
  /** Unexpected onsets per millisecond. */
  readonly adding: number;
}

/** Chance that a subdivision of an open bar is played; about 6 notes on the 16 places of a bar (our choice: an improviser plays 3 to 12). */
export const PLACE_TAKEN = 0.4;
/** Unexpected onsets per millisecond in open bars, where ornaments are no fault: one a second (our choice). */
export const ADDING_WHEN_OPEN = 1e-3;

// What is believed before a take: 1 note in 25 left out and as many added, worth 30 notes of evidence (our choice: careful students do better, beginners worse).
const USUAL = 0.04;
const WORTH = 30;

/** The chances after `missed` of `notes` were left out and `added` came in between, over `durationMs`. */
export function chancesAfter(
  { notes, missed, added }: { readonly notes: number; readonly missed: number; readonly added: number },
  durationMs: number,
): Chances {
  const missing = (missed + USUAL * WORTH) / (notes + WORTH);
  const share = (added + USUAL * WORTH) / (notes + WORTH);
  return { missing: Math.min(0.9, missing), adding: (share * Math.max(1, notes)) / Math.max(1, durationMs) };
}
