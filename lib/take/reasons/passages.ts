import type { Score } from "../../schema/index.js";
import type { Counts } from "../metrics/counts.js";
import type { PlayedOnsets } from "../onsets.js";
import { firstAtOrAfter } from "../state/guide.js";

/** A stretch of a take between two ends of silences: a dropout, or what is accompanied between two. Seconds from bar 1. */
export interface Passage {
  readonly from: number;
  readonly to: number;
  /** Index of the dropout, when it is one. */
  readonly dropout: number | undefined;
  /** Expected notes in it. */
  readonly notes: number;
  /** Expected notes missed in it. */
  readonly missed: number;
  /** Onsets added in it. */
  readonly added: number;
}

// The written notes explain a passage poorly when more than this share of them, and more than three, are missed or added: far above what careful
// and careless players show, 3 to 10 % (our choice).
const POORLY_EXPLAINED = 0.3;
export const FEWEST_WRONG = 3;

export function poorlyExplained({ notes, missed, added }: Pick<Passage, "notes" | "missed" | "added">): boolean {
  return missed + added > Math.max(FEWEST_WRONG, POORLY_EXPLAINED * notes);
}

// What is left out and what is added instead, counted together, is another way of playing from the same share on; so are additions of which there are
// about as many as notes. Notes left out alone tell less, and ornaments add: neither is misread for that (our choice).
const MOSTLY_ADDED = 0.8;

/** Whether what was played in a passage is not what is written: not when only some notes were left out, or some added. */
export function playedOtherwise({ notes, missed, added }: Pick<Passage, "notes" | "missed" | "added">): boolean {
  const exchanged = 2 * Math.min(missed, added);
  return (
    exchanged > Math.max(FEWEST_WRONG, POORLY_EXPLAINED * notes) || added > Math.max(FEWEST_WRONG, MOSTLY_ADDED * notes)
  );
}

/** The passages of a take in order, with how well the written notes explain each. */
export function passagesOf(score: Score, played: PlayedOnsets, counts: Counts): Passage[] {
  const edges = score.dropouts.flatMap(({ from, to }) => [from, to]);
  const notes = new Uint32Array(edges.length + 1);
  const missed = new Uint32Array(edges.length + 1);
  const added = new Uint32Array(edges.length + 1);
  const passageAt = (at: number): number => {
    // A note on the end of a silence still belongs to it: it is unguided. One on its start does too.
    const edge = firstAtOrAfter(edges, at);
    return edges[edge] === at ? edge | 1 : edge;
  };
  for (const { at } of score.expected) notes[passageAt(at)]!++;
  for (const note of counts.missed) missed[passageAt(score.expected[note]!.at)]!++;
  const order = new Int32Array(played.given.length);
  played.given.forEach((given, k) => {
    order[given] = k;
  });
  for (const onset of counts.added) added[passageAt(played.at[order[onset]!]! / 1000)]!++;
  return Array.from(notes, (count, k) => ({
    from: edges[k - 1] ?? Number.NEGATIVE_INFINITY,
    to: edges[k] ?? Number.POSITIVE_INFINITY,
    dropout: k % 2 === 1 ? (k - 1) / 2 : undefined,
    notes: count,
    missed: missed[k]!,
    added: added[k]!,
  }));
}
