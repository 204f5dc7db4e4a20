import type { Score } from "../schema/index.js";

/** "one bar of silence"; where something sounds on: "one bar without kit". */
export function withoutBand(score: Score, index: number): string {
  const { silent, parts } = score.dropouts[index]!;
  return `${silenceLength(score, index)} ${silent || parts.length === 0 ? "of silence" : `without ${parts.join(" and ")}`}`;
}

/** "half a bar", "one bar", "1 1/2 bars", "3 beats". */
export function silenceLength(score: Score, index: number): string {
  const { from, to } = score.dropouts[index]!;
  const bar = barSeconds(score, from);
  const halves = bar === undefined ? Number.NaN : Math.round((2 * (to - from)) / bar);
  if (bar !== undefined && halves > 0 && Math.abs(halves * (bar / 2) - (to - from)) < 1e-3 * bar) {
    if (halves === 1) return "half a bar";
    if (halves === 2) return "one bar";
    return halves % 2 === 0 ? `${halves / 2} bars` : `${(halves - 1) / 2} 1/2 bars`;
  }
  const beats = Math.round((10 * (to - from)) / score.beat) / 10;
  return beats === 1 ? "one beat" : `${beats} beats`;
}

function barSeconds(score: Score, at: number): number | undefined {
  const index = score.bars.findLastIndex((bar) => bar.at <= at + 1e-6);
  const bar = score.bars[index];
  if (bar === undefined) return undefined;
  return (score.bars[index + 1]?.at ?? score.duration) - bar.at;
}
