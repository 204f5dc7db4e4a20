import type { Score } from "../../../schema/index.js";
import type { Sheet } from "../../model.js";

export type PlacedBar = Sheet["bars"][number];
/** Number of a bar in the riff -> where it stands on the sheet. */
export type Places = ReadonlyMap<number, PlacedBar>;

export function placesOn({ bars }: Sheet): Places {
  return new Map(bars.map((bar) => [bar.bar, bar]));
}

/** A bar of the score: its number in the riff, and its seconds. */
export interface HoldingBar {
  readonly number: number;
  readonly from: number;
  readonly to: number;
}

/** The bar of the score that holds a place; the first one before bar 1. */
export function barHolding(score: Score, at: number): HoldingBar | undefined {
  const index = Math.max(
    0,
    score.bars.findLastIndex((bar) => bar.at <= at + 1e-6),
  );
  const bar = score.bars[index];
  if (bar === undefined) return undefined;
  return { number: bar.bar, from: bar.at, to: score.bars[index + 1]?.at ?? score.duration };
}

/** The x coordinate of a share of a bar's time, 0 to 1. */
export function along(anchors: PlacedBar["anchors"], share: number): number {
  const found = anchors.findIndex(([at]) => at >= share);
  const after = Math.max(1, found < 0 ? anchors.length - 1 : found);
  const [a, b] = [anchors[after - 1]!, anchors[after]!];
  const part = b[0] === a[0] ? 0 : (share - a[0]) / (b[0] - a[0]);
  return a[1] + Math.min(1, Math.max(0, part)) * (b[1] - a[1]);
}

/** Bars without notes, for a riff that was not engraved. */
export function plainSheet(bars: readonly number[], isWide: boolean): Sheet {
  const perLine = Math.min(isWide ? 4 : 2, bars.length);
  const width = isWide ? 620 : 328;
  const each = (width - 20) / perLine;
  return {
    svg: "",
    width,
    height: Math.ceil(bars.length / perLine) * LINE,
    bars: bars.map((bar, i) => {
      const top = Math.floor(i / perLine) * LINE + 14;
      const left = 4 + (i % perLine) * each;
      return { bar, top, bottom: top, anchors: [[0, left] as const, [1, left + each - 4] as const] };
    }),
  };
}

/** Height of a line of bars without notes, px. */
const LINE = 56;
