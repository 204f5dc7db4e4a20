import type { Problem } from "../base/index.js";

/**
 * What went wrong while a take was played. `stops`: its clock cannot be trusted any more, so the take has to be played again; otherwise the take
 * can be judged and carries the problem as advice, so that a gate is never passed on damage that nobody is told of.
 */
export interface Damage {
  /** In the clock of the context, seconds. */
  readonly from: number;
  readonly to: number;
  readonly stops: boolean;
  /** Code, sentence and remedy. */
  readonly problem: Problem;
}
