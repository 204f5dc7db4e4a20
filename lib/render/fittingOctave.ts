import { success } from "../base/index.js";
import { type Drill, octavesIn } from "../drill/index.js";
import {
  compassOf,
  type Instrument,
  type Note,
  nearestOctave,
  octavesWithin,
  rangeProblems,
} from "../pattern/index.js";
import type { Result } from "./problem.js";
import { problemIn } from "./problemIn.js";
import { sayProblem } from "./say.js";

/**
 * How many octaves the student's part of a drill is moved for an instrument to reach all of it, in every key of the drill; where no octave
 * does, in the key of the pattern, the nearest octave first. What is out of reach, of severity `error`, where none does that either.
 */
export function fittingOctave(drill: Drill, instrument: Instrument): Result<number> {
  const part = drill.pattern.parts.find(({ name }) => name === drill.student);
  const notes: readonly Note[] = Object.values(part?.variants ?? {}).flat();
  const compass = compassOf(notes);
  if (compass === undefined) return success(0);
  const inAllKeys = octavesIn(drill, instrument);
  const fitting = (inAllKeys && nearestOctave(inAllKeys, 0)) ?? nearestOctave(octavesWithin(compass, instrument), 0);
  if (fitting !== undefined) return success(fitting);
  const remedy = sayProblem("render-problem.no-octave-fits-remedy", { instrument: instrument.name });
  return {
    ok: false,
    // What is advice about a course is an error where a part was asked for.
    problems: rangeProblems({ notes, instrument, remedy }).map((each) => ({
      ...problemIn(each, "render-problem.in-drill", { drill: drill.name }),
      severity: "error" as const,
    })),
  };
}
