import { describe, expect, test } from "vitest";
import { decide, recallDecision } from "../../../lib/progress/index.js";
import { courseOf, findingOf, timeOf } from "../course.js";
import { beginLessons, play } from "../lessons.js";

const two = { kind: "in a row", count: 2 } as const;
const course = courseOf([{ name: "steady", tempi: [80, 4, 4], gate: two }]);

describe("recallDecision() gives the reason of a take that led to nothing", () => {
  test("as it was given, by the edition it was counted in", () => {
    const lessons = beginLessons(course);
    const told = play(lessons, course, { drill: "steady", verdict: "within" });
    const { what, reason } = recallDecision(course, lessons.journal, "t1")!;
    expect([what, reason]).toEqual(["hold", told.reason]);
  });

  test("by another edition: that its own has the rules", () => {
    const lessons = beginLessons(course);
    play(lessons, course, { drill: "steady", verdict: "within" });
    const later = courseOf([{ name: "steady", tempi: [80, 4, 4], gate: two }], { edition: "2.0.0" });
    const { what, reason, messages } = recallDecision(later, lessons.journal, "t1")!;
    expect([what, reason]).toEqual([
      "hold",
      "The take was counted in edition 1.0.0 and changed nothing then; the reason is in the rules of that edition.",
    ]);
    expect(messages).toEqual([{ key: "recall.held-in-edition", parameters: { edition: "1.0.0" } }]);
  });

  test("after another decision: that it came first", () => {
    const lessons = beginLessons(course);
    play(lessons, course, { drill: "steady", verdict: "within" });
    const rung = lessons.standing.drills[0]!.rung!;
    const [taken, advanced] = decide(
      course,
      lessons.standing,
      findingOf("t2", "steady", rung, "within"),
      timeOf(60),
    ).events;
    expect(advanced?.kind).toBe("advanced");
    const { what, reason } = recallDecision(course, [...lessons.journal, taken!], "t2")!;
    expect([what, reason]).toEqual([
      "hold",
      "The take was counted, and changed nothing, as another decision came first.",
    ]);
  });
});
