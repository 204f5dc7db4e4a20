import type { Finding, Score } from "../../schema/index.js";
import type { PlayedOnsets } from "../onsets.js";
import type { Reading } from "../state/reading.js";

export type Counts = Pick<Finding, "pairs" | "missed" | "added">;

/** Which note is which onset, in the indices of the score and of the take as given; onsets in open bars are never additions. */
export function countNotes(score: Score, { guide, paired }: Reading, played: PlayedOnsets): Counts {
  const { onsets } = paired;
  const pairs: [number, number][] = [];
  const found = new Uint8Array(score.expected.length);
  const used = new Uint8Array(played.at.length);
  for (let place = 0; place < onsets.length; place++) {
    const source = guide.source[place]!;
    const onset = onsets[place]!;
    if (onset >= 0) used[onset] = 1;
    if (source < 0) continue;
    if (onset < 0) continue;
    found[source] = 1;
    pairs.push([source, played.given[onset]!]);
  }
  const missed = score.expected.flatMap((_, note) => (found[note] === 0 ? [note] : []));
  const added: number[] = [];
  for (let onset = 0; onset < used.length; onset++) {
    if (used[onset] === 0 && !inOpenBars(score, played.at[onset]! / 1000)) added.push(played.given[onset]!);
  }
  return { pairs, missed, added };
}

function inOpenBars(score: Score, at: number): boolean {
  return score.open.some(({ from, to }) => at >= from && at < to);
}
