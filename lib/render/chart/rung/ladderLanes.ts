import { type Drill, type Ladder, ladderStep, ladderValue, type Parameter, rungs } from "../../../drill/index.js";

/** One ladder of a drill over all its rungs. */
export interface Lane {
  readonly parameter: Parameter;
  readonly lowest: string;
  readonly highest: string;
  /** Number of values of the ladder. */
  readonly count: number;
  /**
   * The step of the ladder, from 0, in columns of equal width. A column is one rung, or several when there are many rungs.
   * `undefined` when the ladder repeats too often for the columns to show it.
   */
  readonly steps: readonly number[] | undefined;
  /** Approximate number of times the ladder climbs to its top. */
  readonly rounds: number;
}

/** Fewest columns in which one climb of a ladder is visible (our choice). */
const COLUMNS_A_ROUND = 4;

/** The ladders of a drill over at most `columns` columns. Rungs are sampled, not listed, so the cost does not depend on their number. */
export function lanesOf(drill: Drill, columns: number): Lane[] {
  const all = rungs(drill);
  const shown = Math.min(all.count, columns);
  const sampled = Array.from({ length: shown }, (_, i) => all.at(Math.floor((i * all.count) / shown)).settings);
  // Rungs in one cycle of the ladders so far, as in an odometer.
  let below = 1;
  return drill.ladders.map((ladder) => {
    const round = below * revisited(ladder);
    below = round;
    const visible = ladder.count === 1 || round >= (COLUMNS_A_ROUND * all.count) / shown || shown === all.count;
    return {
      parameter: ladder.parameter,
      lowest: ladderValue(ladder, 0),
      highest: ladderValue(ladder, ladder.count - 1),
      count: ladder.count,
      steps: visible ? sampled.map((settings) => ladderStep(ladder, settings[ladder.parameter]!)!) : undefined,
      rounds: Math.max(1, Math.round(all.count / round)),
    };
  });
}

function revisited({ count, restart }: Ladder): number {
  return restart === "bottom" ? count : Math.min(restart + 1, count);
}
