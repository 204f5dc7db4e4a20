import { findMix, placedUnder, type Result, type Rung, type Score, scoreOf, success } from "../index.js";
import { openRung } from "./course.js";
import type { Setting } from "./outcome.js";

/** Which score of a rung: the mix, and the draw of silences at random places. */
export interface ScoreChoice {
  readonly mix?: string;
  readonly draw?: string;
}

export interface OpenedScore {
  readonly rung: Rung;
  readonly score: Score;
  /** Instruments the drill is written out for. */
  readonly players: readonly string[];
}

/** The score of FILE DRILL RUNG in a mix; in the rung's usual mix, when none is named. */
export function openScore(
  { sources }: Setting,
  [file, drill, rung]: readonly [string, string, string],
  { mix, draw }: ScoreChoice,
): Result<OpenedScore> {
  const opened = openRung(file, drill, rung, sources);
  if (!opened.ok) return opened;
  const named = mix === undefined ? undefined : findMix(opened.value.drill, mix);
  if (named?.ok === false) return { ok: false, problems: named.problems.map((each) => placedUnder(each, "", file)) };
  const { name, edition } = opened.value.course;
  const score = scoreOf(opened.value.rung, named?.value.name, draw);
  const players = opened.value.drill.players.map(({ instrument }) => instrument.name);
  return success({ rung: opened.value.rung, players, score: { curriculum: name, edition, ...score } });
}
