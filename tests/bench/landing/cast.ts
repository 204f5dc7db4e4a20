import { GRADE_NAMES, type Grade } from "../../reference/players/grades.js";
import { adds, misses } from "../../reference/players/habits/accidents.js";
import {
  type Law,
  oscillator,
  periodCorrection,
  phaseCorrection,
  wanderingTempo,
  wobble,
} from "../../reference/players/laws/index.js";
import type { Player } from "../../reference/players/perform.js";
import type { Habit } from "../../reference/players/plan.js";

/** The laws that take turns in rows about habits. */
const LAWS: readonly Law[] = [phaseCorrection, periodCorrection, wanderingTempo, oscillator, wobble];

/** Players of every law and grade in turn with these habits; every second leaves out and adds 3 % of the notes besides. */
export function everybody(...habits: readonly Habit[]): (take: number) => Player {
  return (take) => ({
    law: LAWS[take % LAWS.length]!,
    temper: GRADE_NAMES[take % GRADE_NAMES.length]!,
    habits: take % 2 === 0 ? habits : [misses(3), adds(3), ...habits],
  });
}

/** Players of one grade and every law in turn. */
export function everyLaw(grade: Grade, rest: Omit<Player, "law" | "temper"> = {}): (take: number) => Player {
  return (take) => ({ law: LAWS[take % LAWS.length]!, temper: grade, ...rest });
}
