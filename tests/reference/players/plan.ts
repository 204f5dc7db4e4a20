import type { Score } from "../../../lib/schema/index.js";
import type { Luck } from "./luck.js";
import type { Stage } from "./stage.js";

/** A note that is not in the score; it sounds `after` seconds after note `by` would (struck or not), or at a time of its own. */
export type Extra = { readonly pitch: string | number } & (
  | { readonly by: number; readonly after: number }
  | { readonly at: number }
);

/** What a player means to do, note by note, before time and hand make it inexact. Habits write in it. */
export interface Plan {
  readonly score: Score;
  readonly stage: Stage;
  /** Seconds by which the player stands elsewhere in the music when each note is due, positive late: slips. */
  readonly slip: Float64Array;
  /** Seconds by which the pulse is off besides, at each note: a landing off from which the player recovers. */
  readonly pushed: Float64Array;
  /** Seconds by which this note alone is off. */
  readonly alone: Float64Array;
  readonly played: Uint8Array;
  /** What each note is played as; undefined for a line without pitches. */
  readonly pitches: (string | undefined)[];
  readonly extras: Extra[];
  /** For each silence, the slip in force when it begins and at its return, seconds, and the push at its return. */
  readonly silences: { slipAtStart: number; slipAtReturn: number; pushedAtReturn: number }[];
}

/** Writes in a plan what a player does besides keeping time; draws from `luck` under purposes of its own. */
export interface Habit {
  readonly name: string;
  readonly apply: (plan: Plan, luck: Luck) => void;
  /** Whether it can be done on this score at all; always when left out. */
  readonly fits?: (stage: Stage, score: Score) => boolean;
}

export function planOf(score: Score, stage: Stage): Plan {
  const count = score.expected.length;
  return {
    score,
    stage,
    slip: new Float64Array(count),
    pushed: new Float64Array(count),
    alone: new Float64Array(count),
    played: new Uint8Array(count).fill(1),
    pitches: score.expected.map(({ pitch }) => pitch),
    extras: [],
    silences: stage.silences.map(() => ({ slipAtStart: 0, slipAtReturn: 0, pushedAtReturn: 0 })),
  };
}
