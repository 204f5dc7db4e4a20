import { describe, expect, test } from "vitest";
import { type Problem, type ProblemCatalogue, problemsIn, seconds } from "../../lib/base/index.js";
import {
  compileCourse,
  compiledCodes,
  curriculumCodes,
  editionProblems,
  findDrill,
  openCourse,
} from "../../lib/curriculum/index.js";
import { drillCodes, findMix, findRung, parseSettings } from "../../lib/drill/index.js";
import { compilePattern, type FrameDocument, patternCodes } from "../../lib/pattern/index.js";
import type { PatternDocument } from "../../lib/schema/index.js";
import { checkTake, schemaCodes } from "../../lib/schema/index.js";
import {
  parseMeter,
  parseSpan,
  parseSwing,
  parseTempo,
  synchronisationProblems,
  timeCodes,
} from "../../lib/time/index.js";
import { loadWords, wordsCodes } from "../../lib/words/index.js";
import { courseFrom, courseText } from "../curriculum/courses.js";
import { problemsOfBrokenCourses } from "./brokenCourses.js";
import { allWorded } from "./worded.js";

const ONE_BAR: FrameDocument = { meter: "4/4", bars: 1 };
const patternOf = (document: Partial<PatternDocument>): readonly Problem[] =>
  problemsIn(compilePattern("riff", { ...ONE_BAR, parts: { lead: { notes: "1/1 D4" } }, ...document }, context));
const context = { instruments: {}, files: () => undefined };

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
    allWorded(problems);
  });
});

const course = courseFrom(courseText());
const drill = course.drills[0]!;
const compiled = compileCourse(course);
const later = { ...course, name: "other" };

const raised: readonly Problem[] = [
  ...fromCourses,
  ...["tempo", "tempp=96", "tempo=96,tempo=97", "tempo=60 of 1/4", "open=x", "mix=", "dropout=1 bar then"].flatMap(
    (text) => problemsIn(parseSettings(text)),
  ),
  ...["9", "tempo=91", "dropout=1 bar", "key=D"].flatMap((text) => problemsIn(findRung(drill, text))),
  ...problemsIn(findMix(drill, "plai")),
  ...problemsIn(findDrill(course, "hol")),
  ...["", compiled.replace('"version":1', '"version":2'), compiled.replace("hold", "held")].flatMap((text) =>
    problemsIn(openCourse(text)),
  ),
  ...editionProblems(course, later),
  ...editionProblems({ ...course, edition: "2.0.0" }, course),
  ...editionProblems(course, { ...course, title: "Another" }),
  ...editionProblems(course, { ...course, drills: [] }),
  ...[{}, { version: 9 }, { onsets: 1 }, { onsets: [{ at: "x" }] }, { more: () => 1 }].flatMap((value) =>
    problemsIn(checkTake(value)),
  ),
  ...problemsIn(await loadWords("xx")),
];

describe.each([
  ["drills", drillCodes],
  ["courses", curriculumCodes],
  ["compiled courses", compiledCodes],
  ["the shape of documents", schemaCodes],
  ["languages", wordsCodes],
])("problems with %s", (_, codes) => {
  const problems = raised.filter(({ code }) => Object.hasOwn(codes, code));

  test("are raised here", () => expect(problems.length).toBeGreaterThan(0));

  test("carry their messages and are worded by the catalogue alone", () => {
    allWorded(problems);
  });
});
