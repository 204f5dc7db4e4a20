/** How a staircase moves: up after so many clean takes in a row, down after any other. */
export interface UpDownRule {
  /** Clean takes in a row that lead up. */
  readonly clean: number;
  /** How far it goes up, and how far down. */
  readonly up: number;
  readonly down: number;
}

/** A staircase so far. Higher levels are harder. */
export interface UpDownRun {
  readonly level: number;
  /** Clean takes in a row at this level. */
  readonly row: number;
  readonly trials: number;
  /** Where it turned: number of the take (from 1) and level it was played at. */
  readonly turns: readonly { readonly trial: number; readonly level: number }[];
  readonly going?: "up" | "down";
}

export function beginUpDown(level: number): UpDownRun {
  return { level, row: 0, trials: 0, turns: [] };
}

/**
 * A staircase after one more take: the transformed up-down method of Levitt 1971, JASA 49, 467-477, with up and down steps of any size.
 * It turns at a take that sends it the other way.
 */
export function stepUpDown(run: UpDownRun, clean: boolean, rule: UpDownRule): UpDownRun {
  const trial = run.trials + 1;
  const row = clean ? run.row + 1 : 0;
  if (clean && row < rule.clean) return { ...run, row, trials: trial };
  const going = clean ? "up" : "down";
  const turned = run.going !== undefined && run.going !== going;
  const turns = turned ? [...run.turns, { trial, level: run.level }] : run.turns;
  return { level: run.level + (clean ? rule.up : -rule.down), row: 0, trials: trial, turns, going };
}

/** The middle of each run between two turns: Levitt's estimates of the level sought. */
export function midRuns({ turns }: UpDownRun): readonly number[] {
  return turns.slice(1).map(({ level }, i) => (level + turns[i]!.level) / 2);
}

/**
 * The chance of a clean take a staircase settles at: p with p^n = down / (up + down). Levitt 1971 for equal steps, Kaernbach 1991
 * (Percept. Psychophys. 49, 227-229) for unequal ones.
 *
 * @example settlesAt({ clean: 1, up: 3, down: 17 }) // 0.85
 */
export function settlesAt({ clean, up, down }: UpDownRule): number {
  return (down / (up + down)) ** (1 / clean);
}
