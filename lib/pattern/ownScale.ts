import { failure, success } from "../base/index.js";
import { problem } from "./codes.js";
import type { Pitch } from "./model.js";
import { alterOf, pitchClassOf } from "./pitch.js";
import type { Result } from "./problem.js";
import { sayOfKey } from "./sayPitch.js";

/**
 * Reads a scale that a course describes, its notes upwards from any tonic: "D E F G# A C". The value is semitones above the tonic, first 0.
 *
 * Problem: SCALE_NOT_READ, also for a single note, a note twice, or notes beyond an octave.
 * @example parseOwnScale("D E F G# A C") // { ok: true, value: [0, 2, 3, 6, 7, 10], ... }
 */
export function parseOwnScale(text: string): Result<readonly number[]> {
  const notes = text.trim().split(/[\s,]+/);
  const classes = notes.flatMap((note) => {
    const [, letter, accidentals = ""] = /^([A-Ga-g])(b{1,2}|#{1,2}|♭{1,2}|♯{1,2})?$/.exec(note) ?? [];
    return letter === undefined
      ? []
      : [pitchClassOf({ letter: letter.toUpperCase() as Pitch["letter"], alter: alterOf(accidentals) })];
  });
  const steps = classes.map((each) => (each - classes[0]! + 12) % 12);
  const rises = steps.length > 1 && steps.every((step, i) => i === 0 || step > steps[i - 1]!);
  if (classes.length === notes.length && rises) return success(steps);
  const message = sayOfKey("key-problem.scale-not-read", { found: JSON.stringify(text.slice(0, 40)) });
  const remedy = sayOfKey("key-problem.scale-not-read-remedy", { example: "D E F G# A C" });
  return failure(problem("SCALE_NOT_READ", message, {}, remedy));
}
