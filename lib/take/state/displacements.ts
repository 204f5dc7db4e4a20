import type { Score } from "../../schema/index.js";

/** How far a player may stand from the place in the music where the accompaniment is, and how likely each displacement is when one slips. */
export interface Displacements {
  /** Milliseconds, positive late; the first is 0, for in place. */
  readonly ms: Float64Array;
  /** Natural logarithm of each one's share of all slips; 0 for the first. */
  readonly logShare: Float64Array;
}

// Shares of slips by size, in beats and in bars, both ways together. Our choice: nothing published on slips was found; a beat or its half is
// lost more easily than a bar, and players of compound beats think in thirds.
const SIMPLE: readonly (readonly [beats: number, share: number])[] = [
  [1 / 2, 0.3],
  [1, 0.4],
];
const COMPOUND: readonly (readonly [beats: number, share: number])[] = [
  [1 / 3, 0.1],
  [2 / 3, 0.1],
  [1 / 2, 0.1],
  [1, 0.4],
];
const IN_BARS: readonly (readonly [bars: number, share: number])[] = [
  [1 / 2, 0.1],
  [1, 0.06],
  [2, 0.02],
];
// Sizes that differ by less than this are one, ms.
const SAME_MS = 1;

/** The displacements that are looked for on a score: the same early and late. */
export function displacementsOf(score: Score): Displacements {
  const beatMs = score.beat * 1000;
  const barMs = score.bars.length > 1 ? (score.bars[1]!.at - score.bars[0]!.at) * 1000 : 4 * beatMs;
  const sizes: [ms: number, share: number][] = [];
  const add = (ms: number, share: number): void => {
    const known = sizes.find(([other]) => Math.abs(other - ms) < SAME_MS);
    if (known === undefined) sizes.push([ms, share]);
    else known[1] += share;
  };
  for (const [beats, share] of isCompound(score) ? COMPOUND : SIMPLE) add(beats * beatMs, share);
  for (const [bars, share] of IN_BARS) add(bars * barMs, share);
  const total = sizes.reduce((sum, [, share]) => sum + share, 0);
  return {
    ms: Float64Array.from([0, ...sizes.flatMap(([ms]) => [-ms, ms])]),
    logShare: Float64Array.from([
      0,
      ...sizes.flatMap(([, share]) => [Math.log(share / total / 2), Math.log(share / total / 2)]),
    ]),
  };
}

/** Whether the beat of the first bar's meter divides by three: 6/8, 9/8, 12/8. */
function isCompound({ bars }: Score): boolean {
  const numerator = Number(/^(\d+)\/(?:8|16)$/.exec(bars[0]?.meter ?? "")?.[1]);
  return numerator > 3 && numerator % 3 === 0;
}
