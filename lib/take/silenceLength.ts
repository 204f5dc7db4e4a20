import { beatsOver, type Phrase } from "../base/index.js";
import type { Score } from "../schema/index.js";
import { say } from "./say.js";

/**
 * "half a bar", "one bar", "1 1/2 bars", "3 beats".
 *
 * @example
 * silenceLength(scoreOf(rungs(halfBar).at(0)), 0) // "half a bar"
 */
export function silenceLength(score: Score, index: number): string {
  return lengthSaid(score, index).says;
}

/** The length of a silence as part of a sentence: "after ... of silence". */
export function lengthPhrase(score: Score, index: number): Phrase {
  return lengthSaid(score, index).message;
}

function lengthSaid(score: Score, index: number): { readonly says: string; readonly message: Phrase } {
  const { from, to } = score.dropouts[index]!;
  const bar = barSeconds(score, from);
  const halves = bar === undefined ? Number.NaN : Math.round((2 * (to - from)) / bar);
  if (bar !== undefined && halves > 0 && Math.abs(halves * (bar / 2) - (to - from)) < 1e-3 * bar) {
    if (halves === 1) return say("take.half-bar");
    const bars = Math.floor(halves / 2);
    return halves % 2 === 0 ? say("take.bars", { bars }) : say("take.bars-and-half", { bars });
  }
  return say("take.beats", { beats: Math.round(10 * beatsOver(score, from, to)) / 10 });
}

function barSeconds(score: Score, at: number): number | undefined {
  const index = score.bars.findLastIndex((bar) => bar.at <= at + 1e-6);
  const bar = score.bars[index];
  if (bar === undefined) return undefined;
  return (score.bars[index + 1]?.at ?? score.duration) - bar.at;
}
