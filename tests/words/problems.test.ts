import { describe, expect, test } from "vitest";
import { type Problem, type ProblemCatalogue, problemsIn, seconds } from "../../lib/base/index.js";
import {
  parseMeter,
  parseSpan,
  parseSwing,
  parseTempo,
  synchronisationProblems,
  timeCodes,
} from "../../lib/time/index.js";
import { problemsOfBrokenCourses } from "./brokenCourses.js";
import { markedWords, unmarked } from "./marked.js";

/** Words of sentences: in what came as text they are only where a person wrote them. */
const OF_SENTENCES = /\b(?:the|an|of|and|or|is|are|which|with|for|to|found|has|have|write)\b/;

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
];

describe.each(ROOMS)("problems of %s", (_, codes, raised) => {
  const problems = [...raised, ...fromCourses].filter(({ code }) => Object.hasOwn(codes, code));

  test("are all raised here", () => {
    expect([...new Set(problems.map(({ code }) => code))].sort()).toEqual(Object.keys(codes).sort());
  });

  test("carry the message of their sentence, and of their remedy when they have one", () => {
    for (const { code, message, remedy, words } of problems) {
      expect(words?.message, `${code}: ${message}`).toBeDefined();
      expect(words?.remedy !== undefined, `${code}: ${remedy}`).toBe(remedy !== undefined);
    }
  });

  test("are worded by the catalogue alone: only names, numbers and what a person wrote come as text", () => {
    const marked = markedWords();
    for (const { message, remedy, words } of problems)
      for (const [said, sentence] of [[words?.message, message] as const, [words?.remedy, remedy ?? ""] as const]) {
        if (said === undefined) continue;
        const worded = marked.word(said, sentence);
        expect(worded).toMatch(/^⟦.*⟧$/);
        expect(worded.replaceAll(/[⟦⟧«»]/g, "")).toBe(sentence);
        for (const name of unmarked(worded).names.filter(isOurs)) expect(name, worded).not.toMatch(OF_SENTENCES);
      }
  });
});

/** A quotation is what a person wrote; the lengths "60 of 3/8" and intervals of a course hold words of sentences too. */
function isOurs(name: string): boolean {
  return !/^"|\d of |(?:lower|higher)$/.test(name);
}
