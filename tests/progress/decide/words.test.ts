import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import type { Gate } from "../../../lib/drill/index.js";
import { decide, gateText, placeByTeacher } from "../../../lib/progress/index.js";
import { english, progressInEnglish, settingInEnglish, wordsOf } from "../../../lib/words/index.js";
import { markedWords, unmarked } from "../../words/marked.js";
import { namesIn } from "../../words/worded.js";
import { courseOf, findingOf, timeOf } from "../course.js";
import { beginLessons, play } from "../lessons.js";

const words = wordsOf<"progress" | "setting">(english, { ...progressInEnglish, ...settingInEnglish });
const marked = markedWords();

const gates: readonly Gate[] = [
  { kind: "clean of last", clean: 3, of: 4 },
  { kind: "in a row", count: 1 },
  { kind: "in a row", count: 2 },
  { kind: "sequential", able: 0.85, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 },
];
const course = courseOf([
  { name: "steady", tempi: [80, 4, 3], gate: gates[0]!, goBack: { after: 2, by: 1 } },
  { name: "row", tempi: [80, 4, 3], gate: gates[2]!, goBack: { after: 1, by: 1 } },
  { name: "shown", tempi: [80, 4, 2], gate: gates[3]! },
  { name: "half-bar", tempi: [80, 4, 5], gate: gates[1]!, needs: ["steady", "row"] },
]);
// Names and values come from the course and are the same in every language. The names of settings are not: a language words them.
const DATA = /^(?:steady|row|shown|half-bar|t\d+|again|plain|\d+|quayside-test-course|elsewhere)$/;

const step = fc.record({
  drill: fc.constantFrom("steady", "row", "shown", "half-bar"),
  verdict: fc.constantFrom("within", "within", "beyond", "unclear"),
  rung: fc.option(fc.constantFrom("tempo=84,variant=plain", "tempo=999,variant=plain"), { nil: undefined, freq: 6 }),
  name: fc.option(fc.constant("again"), { nil: undefined, freq: 6 }),
} as const);

type Step = {
  readonly drill: "row" | "steady";
  readonly verdict: "beyond" | "within";
};

/** A student who goes back, stays on the easiest rung, and completes what half-bar needs. */
const scripted = [..."bwwbwwwwww"]
  .map((letter) => ({ drill: "row", verdict: letter === "w" ? "within" : "beyond" }) as Step)
  .concat(Array.from({ length: 9 }, () => ({ drill: "steady", verdict: "within" })));

describe("the words of decisions", () => {
  test("are their messages in English, and hold no text of another language but names of the course", () => {
    const keys = new Set<string>();
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 20 }), (steps) => {
        const lessons = beginLessons(course);
        for (const { rung, name, ...take } of steps) {
          const more = { ...(rung === undefined ? {} : { rung }), ...(name === undefined ? {} : { name }) };
          const { reason, messages } = play(lessons, course, { ...take, ...more });
          for (const { key } of messages) keys.add(key);
          expect(messages.map((message) => words.word(message, "")).join(" ")).toBe(reason);
          const { outside, names } = unmarked(messages.map((message) => marked.word(message, reason)).join(""));
          expect(outside).toBe("");
          for (const each of names) expect(each).toMatch(DATA);
        }
      }),
      { examples: [[scripted.map((each) => ({ rung: undefined, name: undefined, ...each }))]], numRuns: 40 },
    );
    // What a student is told, but for courses of one rung.
    expect([...keys].sort()).toEqual(
      expect.arrayContaining(
        "back clean counted-before easiest gate-met needs-in-a-row needs-out-of-last needs-showing no-such-rung not-open opened other-rung unclear"
          .split(" ")
          .map((key) => `progress.${key}`),
      ),
    );
  });

  test("tell each gate in few words, and the sequential one without its error rates", () => {
    expect(gates.map(gateText)).toEqual([
      "3 clean takes out of the last 4",
      "1 clean take",
      "2 clean takes in a row",
      "takes that show you to be clean about 85 % of the time rather than 50 % (5 or more)",
    ]);
  });

  test("of the sequential gate name the fewest takes after which it can be met", () => {
    const lessons = beginLessons(course);
    const told = Array.from({ length: 5 }, () => play(lessons, course, { drill: "shown", verdict: "within" }));
    expect(told.map(({ what }) => what)).toEqual(["hold", "hold", "hold", "hold", "advance"]);
    expect(told[0]!.reason).toBe(
      "This take was clean. Keep playing until the takes show that you are clean about 85 % of the time rather than 50 % (5 takes or more); so far 1 clean, 0 not.",
    );
  });
});

describe("the words of problems with progress", () => {
  const lessons = beginLessons(course);
  const { take: _, ...nameless } = findingOf("t1", "steady", "tempo=80,variant=plain", "within");
  const problems = [
    ...decide({ ...course, name: "elsewhere" }, lessons.standing, nameless, timeOf(9)).problems,
    ...decide(course, lessons.standing, findingOf("t".repeat(300), "stedy", "", "within"), timeOf(9)).problems,
    ...problemsIn(placeByTeacher(course, lessons.standing, { drill: "rwo", rung: "1", at: timeOf(9) })),
  ];

  test.each(problems)("$code: message and remedy stand beside their sentences", (problem) => {
    for (const each of namesIn(problem)) expect(each).toMatch(new RegExp(`${DATA.source}|^(?:stedy|rwo)$`));
  });

  test("are five, of three codes", () => {
    expect(problems.map(({ code }) => code)).toEqual([
      "CURRICULUM_OTHER",
      "FINDING_INCOMPLETE",
      "FINDING_INCOMPLETE",
      "PROGRESS_DRILL_UNKNOWN",
      "PROGRESS_DRILL_UNKNOWN",
    ]);
  });
});
