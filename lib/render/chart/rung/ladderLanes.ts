import { type Drill, type Ladder, ladderStep, ladderValue, type Parameter, rungs } from "../../../drill/index.js";

/** One ladder of a drill over all its rungs. */
export interface Lane {
  readonly parameter: Parameter;
  readonly lowest: string;
  readonly highest: string;
  /** Values of the ladder. */
  readonly count: number;
  /**
   * Where the ladder is, from 0, over columns of equal width: columns are rungs while there are few, and stretches of rungs otherwise.
   * `undefined` when it goes round more often than columns can show.
   */
  readonly steps: readonly number[] | undefined;
  /** How often it goes from its restart to its top, about. */
  readonly rounds: number;
}

/** Columns a round needs to be seen as one (our choice). */
const COLUMNS_A_ROUND = 4;

/** The ladders of a drill over at most so many columns, by arithmetic: no list of rungs, however many there are. */
export function lanesOf(drill: Drill, columns: number): Lane[] {
  const all = rungs(drill);
  const shown = Math.min(all.count, columns);
  const sampled = Array.from({ length: shown }, (_, i) => all.at(Math.floor((i * all.count) / shown)).settings);
  // Rungs of one further time round the ladders below, as in the odometer.
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
