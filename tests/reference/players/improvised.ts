import type { Score } from "../../../lib/schema/index.js";
import type { Luck } from "./luck.js";

/** Chance of a note on each subdivision of an open bar: our choice, a busy but not an even line. */
const SHARE = 0.5;

/** The score as one player means it: notes of the scale on some of the subdivisions of the open bars, those on the beat oftener. */
export function improvised(score: Score, luck: Luck): Score {
  const stream = luck("improvised");
  const part = score.expected[0]!.part;
  const taken = score.open.flatMap(({ from, to, subdivision, grid, pitchClasses }) => {
    const places =
      grid ?? Array.from({ length: Math.round((to - from) / subdivision) }, (_, k) => from + k * subdivision);
    return places.flatMap((at, k) => {
      const pitch = `${NAMES[pitchClasses[stream.below(pitchClasses.length)]!]!}4`;
      const likely = k % 2 === 0 ? 1.4 * SHARE : 0.6 * SHARE;
      return stream.uniform() < likely ? [{ position: "0", at, part, bar: barAt(score, at), pitch }] : [];
    });
  });
  return { ...score, open: [], expected: [...score.expected, ...taken].sort((a, b) => a.at - b.at) };
}

function barAt({ bars }: Score, time: number): number {
  return bars.findLast(({ at }) => at <= time + 1e-6)!.bar;
}

const NAMES = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;
