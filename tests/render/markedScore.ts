import { compileDrill, rungs, scoreOf } from "../../lib/drill/index.js";
import type { Score } from "../../lib/schema/index.js";
import { compiled } from "../pattern/shorthand.js";
import { must } from "../time/shorthand.js";

/** The score of one phrase of a line of one bar of 4/4, played by the student's part alone at 120. */
export function scoreOfLine(notes: string, instrument = "trumpet", tempo = 120): Score {
  const parts = { kit: { voices: { hat: "x" } }, lead: { instrument, notes } };
  const pattern = compiled({ meter: "4/4", bars: 1, parts });
  const document = {
    pattern: "riff",
    student: "lead",
    phrases: 1,
    tempo,
    "count-in": "1 beat",
    mixes: { alone: { kit: "off", lead: "plays" } },
    tolerance: {},
  } as const;
  const score = scoreOf(
    rungs(must(compileDrill("drill", document, { patterns: { riff: pattern }, instruments: {} }))).at(0),
    "alone",
  );
  const student = score.parts.find((part) => part.student)!;
  // Once through, without the outro.
  const bar = 4 * score.beat;
  return { ...score, countIn: 0, parts: [{ ...student, notes: student.notes.filter(({ at }) => at < bar) }] };
}
