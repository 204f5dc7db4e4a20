import { describe, expect, test } from "vitest";
import { type Problem, type ProblemCatalogue, problemsIn, seconds } from "../../lib/base/index.js";
import { compilePattern, type FrameDocument, patternCodes } from "../../lib/pattern/index.js";
import type { PatternDocument } from "../../lib/schema/index.js";
import {
  parseMeter,
  parseSpan,
  parseSwing,
  parseTempo,
  synchronisationProblems,
  timeCodes,
} from "../../lib/time/index.js";
import { problemsOfBrokenCourses } from "./brokenCourses.js";
import { allWorded } from "./worded.js";

const ONE_BAR: FrameDocument = { meter: "4/4", bars: 1 };
const patternOf = (document: Partial<PatternDocument>): readonly Problem[] =>
  problemsIn(compilePattern("riff", { ...ONE_BAR, parts: { lead: { notes: "1/1 D4" } }, ...document }, context));
const context = { instruments: {}, files: () => undefined };

/** What other rooms put around the sentence of a problem: they carry its message as theirs say. */
const AROUND = /^in (?:the drill|[A-G][#b♯♭]? \w+,)/;

const fromCourses = problemsOfBrokenCourses();

/** Rooms whose problems carry messages, with broken inputs beside the courses. */
const ROOMS: readonly (readonly [room: string, codes: ProblemCatalogue, raised: readonly Problem[]])[] = [
  [
    "time",
    timeCodes,
    [
      ...["", "four", "4/5", "0/4", "65/4"].flatMap((text) => problemsIn(parseMeter(text))),
      ...["", "one bar", "3 measures", "0 bars", "20000 beats"].flatMap((text) => problemsIn(parseSpan(text))),
      ...["", "fast", "0.5", "2000", "60 of a crotchet", "60 of quaver"].flatMap((text) =>
        problemsIn(parseTempo(text)),
      ),
      ...["", "2:1", "20:1 1/8", "0:1 1/8 note"].flatMap((text) => problemsIn(parseSwing(text))),
      ...synchronisationProblems(seconds(2), seconds(0.05)),
    ],
  ],
  [
    "pattern",
    patternCodes,
    [
      ...patternOf({ bars: 0 }),
      ...patternOf({ parts: {} }),
      ...patternOf({ parts: { lead: { variants: {} }, low: {} } }),
      ...patternOf({ parts: { lead: { notes: "1/1 D4", voices: { hat: "x" }, file: "riff.mid" } } }),
      ...patternOf({
        parts: { lead: { notes: "1/1 D4", voices: { hat: "x" }, variants: { plain: { notes: "1/1 D4" } } } },
      }),
      ...patternOf({
        bars: 2,
        "meter-changes": [
          { bar: 2, meter: "3/4" },
          { bar: 2, meter: "4/4" },
        ],
      }),
      ...patternOf({ bars: 3, "meter-changes": [{ bar: 5, meter: "3/4" }] }),
    ],
  ],
];

describe.each(ROOMS)("problems of %s", (_, codes, raised) => {
  const problems = [...raised, ...fromCourses].filter(({ code }) => Object.hasOwn(codes, code));

  test("are all raised here", () => {
    expect([...new Set(problems.map(({ code }) => code))].sort()).toEqual(Object.keys(codes).sort());
  });

  test("carry their messages and are worded by the catalogue alone", () => {
    allWorded(problems.filter(({ message }) => !AROUND.test(message)));
  });
});
