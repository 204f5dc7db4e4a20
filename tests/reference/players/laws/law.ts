import type { Temper } from "../grades.js";
import type { Stage } from "../stage.js";

/** Standard normal numbers of one purpose; a law draws each purpose once. */
export type Draws = (purpose: string, count: number) => Float64Array;

/** What a player is like for good: a number uniform on [0, 1) for each trait. */
export type Traits = (trait: string) => number;

export interface Pulse {
  /** Lateness of the player's own pulse at each moment, before anything heard at that moment is answered; seconds. */
  readonly late: Float64Array;
  /** How much later each expected note would be struck than the pulse says, seconds. */
  readonly hand: Float64Array;
}

/** A law of timing: how a pulse moves while something can be heard and while nothing can. */
export interface Law {
  readonly name: string;
  /**
   * How far from the beat, in beats, the pulse may stray and still be linear in its draws (but for terms of third order): then the best estimate that knows the
   * law can be computed. 0: never.
   */
  readonly linearWithin: number;
  readonly play: (stage: Stage, temper: Temper, luck: { readonly draws: Draws; readonly traits: Traits }) => Pulse;
}
