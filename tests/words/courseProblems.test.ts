import { describe, expect, test } from "vitest";
import { type Problem, problemsIn } from "../../lib/base/index.js";
import {
  compileCourse,
  compiledCodes,
  curriculumCodes,
  editionProblems,
  findDrill,
  openCourse,
} from "../../lib/curriculum/index.js";
import { drillCodes, findMix, findRung, parseSettings } from "../../lib/drill/index.js";
import { checkTake, schemaCodes } from "../../lib/schema/index.js";
import { loadWords, wordsCodes } from "../../lib/words/index.js";
import { courseFrom, courseText } from "../curriculum/courses.js";
import { problemsOfBrokenCourses } from "./brokenCourses.js";
import { markedWords } from "./marked.js";

const course = courseFrom(courseText());
const drill = course.drills[0]!;
const compiled = compileCourse(course);
const later = { ...course, name: "other" };
const marked = markedWords();

const raised: readonly Problem[] = [
  ...problemsOfBrokenCourses(),
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

  test("carry the messages of their sentences and remedies, which the catalogue words alone", () => {
    for (const { code, message, remedy, words } of problems) {
      expect(words?.message, `${code}: ${message}`).toBeDefined();
      expect(words?.remedy !== undefined, `${code}: ${remedy}`).toBe(remedy !== undefined);
      for (const [said, sentence] of [[words?.message, message] as const, [words?.remedy, remedy ?? ""] as const]) {
        if (said === undefined) continue;
        const worded = marked.word(said, sentence);
        expect(worded, code).toMatch(/^⟦.*⟧$/s);
        expect(worded.replaceAll(/[⟦⟧«»]/g, "")).toBe(sentence.replaceAll(/[⟦⟧«»]/g, ""));
      }
    }
  });
});
