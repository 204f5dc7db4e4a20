import { type Result, success } from "../base/index.js";
import type { Drill } from "../drill/index.js";
import { type Instrument, type Note, rangeProblems } from "../pattern/index.js";
import { problemIn } from "./problemIn.js";

/** Octaves a part may be moved by to fit an instrument, nearest first; the lower of two as near. */
const OCTAVES = [0, -1, 1, -2, 2, -3, 3];

/** How many octaves the student's part of a drill is moved for an instrument to reach all of it; what is out of reach where none will do. */
export function fittingOctave(drill: Drill, instrument: Instrument): Result<number> {
  const part = drill.pattern.parts.find(({ name }) => name === drill.student);
  const notes: readonly Note[] = Object.values(part?.variants ?? {}).flat();
  const fitting = OCTAVES.find((octave) => rangeProblems({ notes, instrument, octave }).length === 0);
  if (fitting !== undefined) return success(fitting);
  const problems = rangeProblems({ notes, instrument });
  return {
    ok: false,
    problems: problems.map((each) => problemIn(each, "render-problem.in-drill", { drill: drill.name })),
  };
}
