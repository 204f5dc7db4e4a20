import type { Score } from "../../schema/index.js";
import type { PictureBar } from "../sheet/index.js";

/** A bar of a take: which bar of the riff it plays, from 1, and its seconds. */
interface HoldingBar {
  readonly number: number;
  readonly from: number;
  readonly to: number;
}

/** A bar of a take on an engraved riff. */
export interface PlacedBar extends HoldingBar {
  readonly place: PictureBar;
  /** The x coordinate of a time in the bar, seconds; that of its nearer end for one outside. */
  x(time: number): number;
}

/** Two times closer than this are equal, seconds: times in a score are rounded. */
const SAME = 1e-6;

/** The bar of a take that holds a place, seconds from bar 1, on the engraved riff; the first one before bar 1. `undefined` where the riff has no such bar. */
export function barAt(score: Score, bars: readonly PictureBar[], at: number): PlacedBar | undefined {
  return placed(score, bars, indexAt(score, at));
}

/** The bar of a take that holds a place, seconds from bar 1, as a bar of the riff; the first one before bar 1. `undefined` for a score without bars. */
export function barOfRiff(score: Score, at: number): HoldingBar | undefined {
  return holding(score, indexAt(score, at));
}

function indexAt({ bars }: Score, at: number): number {
  return Math.max(
    0,
    bars.findLastIndex((bar) => bar.at <= at + SAME),
  );
}

/** The bars of a phrase of a take, from 1, on the engraved riff. */
export function barsOfPhrase(score: Score, bars: readonly PictureBar[], number: number): readonly PlacedBar[] {
  return score.bars
    .map(({ phrase }, index) => (phrase === number ? placed(score, bars, index) : undefined))
    .filter((bar) => bar !== undefined);
}

/** A take numbers its bars through; each phrase, and the outro, begins again with the first bar of the riff. */
function holding(score: Score, index: number): HoldingBar | undefined {
  const bar = score.bars[index];
  if (bar === undefined) return undefined;
  const number = index - score.bars.findIndex(({ phrase }) => phrase === bar.phrase) + 1;
  return { number, from: bar.at, to: score.bars[index + 1]?.at ?? score.duration };
}

function placed(score: Score, bars: readonly PictureBar[], index: number): PlacedBar | undefined {
  const bar = holding(score, index);
  const place = bars.find((each) => each.bar === bar?.number);
  if (bar === undefined || place === undefined) return undefined;
  return { ...bar, place, x: (time) => along(place.anchors, (time - bar.from) / (bar.to - bar.from)) };
}

/** The x coordinate of a share of a bar's time, 0 to 1. */
function along(anchors: PictureBar["anchors"], share: number): number {
  const found = anchors.findIndex(([at]) => at >= share);
  const after = Math.max(1, found < 0 ? anchors.length - 1 : found);
  const [a, b] = [anchors[after - 1]!, anchors[after]!];
  const part = b[0] === a[0] ? 0 : (share - a[0]) / (b[0] - a[0]);
  return a[1] + Math.min(1, Math.max(0, part)) * (b[1] - a[1]);
}
