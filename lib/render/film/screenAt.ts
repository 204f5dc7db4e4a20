import { beatAt } from "../../base/index.js";
import type { Score } from "../../schema/index.js";
import { silencesHeard } from "../phrases.js";

/** What the screen shows at a moment. Equal screens look alike: whatever is not in here does not move. */
export interface Screen {
  /** "part": some of the band are silent, and others play on. */
  readonly phase: "counting in" | "band" | "silence" | "part";
  /** The phrase on the sheet, from 1. */
  readonly phrase: number;
  /** Where the mark stands, seconds from bar 1 of the score. */
  readonly at: number;
}

/**
 * What the screen shows when the score has come to a place, seconds from bar 1. In a silence nothing keeps time for the student: the mark stands
 * at its edge until the landing. Who only listens is not tested, so that it goes on there (`follows`).
 */
export function screenAt(score: Score, at: number, follows: boolean): Screen {
  if (at < 0) return { phase: "counting in", phrase: 1, at: 0 };
  const silence = silencesHeard(score).find(({ from, to }) => from <= at && at < to);
  const stands = silence === undefined || follows ? at : silence.from;
  const phase = silence === undefined ? "band" : silence.silent ? "silence" : "part";
  return { phase, phrase: phraseAt(score, stands), at: stands };
}

/** The number of the phrase that holds a place, from 1. */
export function phraseAt(score: Score, at: number): number {
  return Math.max(1, score.bars.findLast((bar) => bar.at <= at + 1e-6)?.phrase ?? 1);
}

/** The place at or before which the last beat began. */
export function beatBefore(score: Score, at: number): number {
  const bar = score.bars.findLast((each) => each.at <= at + 1e-6);
  if (bar === undefined) return at;
  const beat = beatAt(score, bar.at);
  return bar.at + Math.floor((at - bar.at + 1e-6) / beat) * beat;
}
