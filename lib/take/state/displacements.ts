import { beatsOver } from "../../base/index.js";
import type { Score } from "../../schema/index.js";

/** How far a player may stand from the place in the music where the accompaniment is, and how likely each displacement is when one slips. */
export interface Displacements {
  /** Milliseconds, positive late; the first is 0, for in place. Grows where slips add up. */
  readonly ms: number[];
  /** The slips that are looked for, ms either way, with the natural logarithm of each one's share of all slips. */
  readonly slips: readonly { readonly by: number; readonly logShare: number }[];
  /** Index in `ms` of the displacement that one of the slips leads to from another; -1 when it is too far to be one. */
  after(place: number, slip: number): number;
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
// Slips that add up to more than so many bars are not followed (our choice).
const FURTHEST_BARS = 4;

/** Most tempi of a take whose beats are looked for: our choice, as between neighbours of so few a slip falls nearer to one than a player scatters. */
const MOST_TEMPI = 4;

/** The beats of a take, ms: of all its tempi, or of so many from the first to the last. */
function beatsOf({ beat, tempi = [] }: Score): readonly number[] {
  if (tempi.length === 0) return [1000 * beat];
  const count = Math.min(MOST_TEMPI, tempi.length);
  return Array.from(
    { length: count },
    (_, i) => 1000 * tempi[Math.round((i * (tempi.length - 1)) / (count - 1))]!.beat,
  );
}

/** The slips that are looked for on a score, the same early and late, and the displacements they lead to; at the given beats (ms), or at those of all its tempi. */
export function displacementsOf(score: Score, beats: readonly number[] = beatsOf(score)): Displacements {
  const [first, second] = score.bars;
  const beatsInBar = second === undefined ? 4 : beatsOver(score, first!.at, second.at);
  const barMs = beatsInBar * Math.max(...beats);
  const sizes: [ms: number, share: number][] = [];
  const add = (ms: number, share: number): void => {
    const known = sizes.find(([other]) => Math.abs(other - ms) < SAME_MS);
    if (known === undefined) sizes.push([ms, share]);
    else known[1] += share;
  };
  for (const beatMs of beats) {
    for (const [size, share] of isCompound(score) ? COMPOUND : SIMPLE) add(size * beatMs, share);
    for (const [bars, share] of IN_BARS) add(bars * beatsInBar * beatMs, share);
  }
  const total = sizes.reduce((sum, [, share]) => sum + share, 0);
  const slips = sizes.flatMap(([size, share]) => {
    const logShare = Math.log(share / total / 2);
    return [
      { by: -size, logShare },
      { by: size, logShare },
    ];
  });
  const ms = [0, ...slips.map(({ by }) => by)];
  const seen: (Int32Array | undefined)[] = [];
  const after = (place: number, slip: number): number => {
    seen[place] ??= Int32Array.from(slips, ({ by }) => found(ms[place]! + by));
    return seen[place][slip]!;
  };
  const found = (wanted: number): number => {
    if (Math.abs(wanted) > FURTHEST_BARS * barMs) return -1;
    const known = ms.findIndex((each) => Math.abs(each - wanted) < SAME_MS);
    return known >= 0 ? known : ms.push(wanted) - 1;
  };
  return { ms, slips, after };
}

/** Whether the beat of the first bar's meter divides by three: 6/8, 9/8, 12/8. */
function isCompound({ bars }: Score): boolean {
  const numerator = Number(/^(\d+)\/(?:8|16)$/.exec(bars[0]?.meter ?? "")?.[1]);
  return numerator > 3 && numerator % 3 === 0;
}
