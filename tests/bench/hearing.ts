import { hitRates, matchHits } from "../reference/hitRates.js";

/** The methods of the peer, its default first. */
export const PEER_METHODS: string[] = "default energy hfc complex phase specdiff kl mkl specflux".split(" ");

/** How many of the true onsets were heard, over several recordings. */
export interface Scores {
  readonly truth: number;
  readonly heard: number;
  readonly hits50: number;
  readonly hits25: number;
  /** F-measures with windows of 50 and 25 ms. */
  readonly f50: number;
  readonly f25: number;
  /** Heard less true, ms, of the hits within 50 ms. */
  readonly errors: readonly number[];
}

/** The scores of one recording more: times in seconds, paired as mir_eval pairs them. */
export function scoresOf(truth: readonly number[], at: readonly number[], before?: Scores): Scores {
  const hits = matchHits(truth, at, 0.05);
  const all = {
    truth: truth.length + (before?.truth ?? 0),
    heard: at.length + (before?.heard ?? 0),
    hits50: hits.length + (before?.hits50 ?? 0),
    hits25: matchHits(truth, at, 0.025).length + (before?.hits25 ?? 0),
    errors: [...(before?.errors ?? []), ...hits.map(([i, j]) => 1000 * (at[j]! - truth[i]!))],
  };
  const f = (count: number): number => hitRates(count, { reference: all.truth, estimated: all.heard }).f;
  return { ...all, f50: f(all.hits50), f25: f(all.hits25) };
}

export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}
