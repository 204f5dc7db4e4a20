import { describe, expect, test } from "vitest";
import type { Gate } from "../../../lib/drill/index.js";
import { apply, decide, drillStanding, placeByTeacher } from "../../../lib/progress/index.js";
import { at, courseOf, findingOf, timeOf } from "../course.js";
import { beginLessons, type Lessons, play, playRow } from "../lessons.js";

const two: Gate = { kind: "in a row", count: 2 };
const course = courseOf([
  { name: "steady", tempi: [80, 4, 5], gate: two, goBack: { after: 2, by: 1 } },
  { name: "half-bar", tempi: [80, 4, 5], gate: { kind: "in a row", count: 1 }, goBack: { after: 2, by: 2 } },
  { name: "free", tempi: [60, 10, 2] },
]);

function placeAt(lessons: Lessons, drill: string, tempo: number): void {
  const placed = placeByTeacher(course, lessons.standing, { drill, rung: at(tempo), at: timeOf(60 * lessons.takes) });
  if (!placed.ok) throw new Error("not placed");
  lessons.standing = placed.value.standing;
  lessons.journal.push(...placed.value.events);
}

const creditedIn = (lessons: Lessons, drill: string): readonly string[] =>
  drillStanding(lessons.standing, drill)!
    .rungs.filter(({ credit }) => credit !== undefined)
    .map(({ rung }) => rung);

describe("the decision on a rung", () => {
  test("a hold rests on the takes that the gate weighed, in the order they were played, and says what is missing", () => {
    const lessons = beginLessons(course);
    expect(playRow(lessons, course, { drill: "free", takes: "bwbuw" })).toMatchObject({
      what: "hold",
      evidence: ["t1", "t2", "t3", "t5"],
      reason: "This take was clean. You need 3 clean takes out of your last 4; you have 2.",
    });
    expect(playRow(lessons, course, { drill: "free", takes: "b" })).toMatchObject({
      what: "hold",
      evidence: ["t2", "t3", "t5", "t6"],
      reason: "This take was outside the limits. You need 3 clean takes out of your last 4; you have 2.",
    });
  });

  test("a lost decision is made good also when an unclear take came after the take that led to it", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "w" });
    const finding = findingOf("t2", "steady", at(80), "within");
    const whole = decide(course, lessons.standing, finding, timeOf(99));
    const torn = apply(lessons.standing, whole.events[0]!).standing;
    const unclear = decide(course, torn, findingOf("t3", "steady", at(80), "unclear"), timeOf(120));
    expect(unclear.what).toBe("hold");
    expect(decide(course, unclear.standing, finding, timeOf(200))).toMatchObject({
      what: "advance",
      evidence: ["t1", "t2"],
    });
  });

  test("a rung that was left by its gate before is left by one clean take, and by no take beyond tolerance", () => {
    const lessons = beginLessons(course);
    expect(playRow(lessons, course, { drill: "steady", takes: "wwww" }).to).toBe(at(88));
    placeAt(lessons, "steady", 80);
    expect(playRow(lessons, course, { drill: "steady", takes: "ww" }).to).toBe(at(84));
    expect(playRow(lessons, course, { drill: "steady", takes: "b" })).toMatchObject({ what: "hold", to: at(84) });
    expect(playRow(lessons, course, { drill: "steady", takes: "w" })).toMatchObject({
      what: "advance",
      to: at(88),
      evidence: ["t3", "t4", "t8"],
      reason: "This rung was earned before, and this take confirms it: on to tempo 88.",
    });
  });

  test("a completion says which gate was met", () => {
    const lessons = beginLessons(course);
    expect(playRow(lessons, course, { drill: "half-bar", takes: "wwwww" })).toMatchObject({
      what: "complete",
      reason: "The gate is met (1 clean take): drill half-bar is complete.",
    });
  });

  test("a clean take between breaks the row of takes that lead back", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "ww" });
    expect(playRow(lessons, course, { drill: "steady", takes: "bwb" })).toMatchObject({ what: "hold", to: at(84) });
    expect(playRow(lessons, course, { drill: "steady", takes: "b" })).toMatchObject({
      what: "go back",
      evidence: ["t5", "t6"],
    });
  });

  test("on the easiest rung the latest takes of the row are named, as many as lead back elsewhere", () => {
    const lessons = beginLessons(course);
    expect(playRow(lessons, course, { drill: "steady", takes: "bbb" })).toMatchObject({
      what: "hold",
      to: at(80),
      evidence: ["t2", "t3"],
    });
  });

  test("going back takes the credit of the rungs from the new one to the one that is left, and of no other", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "half-bar", takes: "wwww" });
    expect(creditedIn(lessons, "half-bar")).toEqual([at(80), at(84), at(88), at(92)]);
    // Placed below, and up again to a rung that has credit of its own; 92 above keeps its credit, and so does 80 below where the way ends at 84.
    placeAt(lessons, "half-bar", 84);
    expect(playRow(lessons, course, { drill: "half-bar", takes: "w" }).to).toBe(at(88));
    const decided = playRow(lessons, course, { drill: "half-bar", takes: "bb" });
    expect(decided).toMatchObject({ what: "go back", from: at(88), to: at(80) });
    expect(lessons.journal.at(-1)).toMatchObject({ kind: "gone back", lapsed: [at(80), at(84), at(88)] });
    expect(creditedIn(lessons, "half-bar")).toEqual([at(92)]);
    const others = beginLessons(course);
    playRow(others, course, { drill: "half-bar", takes: "wwww" });
    placeAt(others, "half-bar", 88);
    expect(playRow(others, course, { drill: "half-bar", takes: "w" }).to).toBe(at(92));
    playRow(others, course, { drill: "half-bar", takes: "bb" });
    expect(others.journal.at(-1)).toMatchObject({ kind: "gone back", to: at(84), lapsed: [at(84), at(88), at(92)] });
    expect(creditedIn(others, "half-bar")).toEqual([at(80)]);
  });
});

describe("decide()", () => {
  const open = { edition: "2.0.0" } as const;
  const needing = courseOf([
    { name: "steady", tempi: [80, 4, 5], gate: two },
    { name: "later", tempi: [80, 4, 2], needs: ["steady"] },
  ]);
  const freed = courseOf(
    [
      { name: "steady", tempi: [80, 4, 5], gate: two },
      { name: "later", tempi: [80, 4, 2] },
    ],
    open,
  );

  test("goes over to the edition in use first, and opens what it opens, by an unclear take too", () => {
    const lessons = beginLessons(needing);
    expect(drillStanding(lessons.standing, "later")?.state ?? "closed").toBe("closed");
    const decision = play(lessons, freed, { drill: "steady", verdict: "unclear" });
    expect(decision).toMatchObject({ what: "hold", known: false, opened: ["later"], problems: [] });
    expect(decision.events.map(({ kind }) => kind)).toEqual(["edition changed", "take assessed", "drill opened"]);
    expect(decision.standing.edition).toBe("2.0.0");
  });

  test("says whether a take was counted before, and rests nothing on one of another rung", () => {
    const lessons = beginLessons(course);
    expect(play(lessons, course, { drill: "steady", verdict: "within", name: "a" }).known).toBe(false);
    expect(play(lessons, course, { drill: "steady", verdict: "within", name: "a" }).known).toBe(true);
    const elsewhere = decide(course, lessons.standing, findingOf("a", "steady", at(84), "within"), timeOf(900));
    expect(elsewhere).toMatchObject({ what: "hold", known: true, evidence: [], events: [], problems: [] });
  });

  test("counts a take of the only rung of a drill, whose settings are no text", () => {
    const lessons = beginLessons(course);
    const finding = findingOf("a", "free", "", "within");
    expect(decide(course, lessons.standing, finding, timeOf(60)).events.map(({ kind }) => kind)).toEqual([
      "take assessed",
    ]);
  });

  test("decides nothing by a finding that cannot be counted, and says where each cause is", () => {
    const { standing } = beginLessons(course);
    const { take: _take, drill: _drill, rung: _rung, ...bare } = findingOf("a", "steady", at(80), "within");
    const decision = decide(course, standing, bare, timeOf(60));
    expect(decision).toEqual({
      what: "not counted",
      drill: undefined,
      from: undefined,
      to: undefined,
      known: false,
      reason: "The finding cannot be counted.",
      messages: decision.messages,
      evidence: [],
      opened: [],
      events: [],
      standing,
      problems: decision.problems,
    });
    expect(decision.problems.map(({ where }) => where.pointer)).toEqual(["/take", "/drill", "/rung"]);
    const astray = { ...findingOf("x".repeat(201), "stedy", at(80), "within") };
    const refused = decide(course, standing, astray, timeOf(60));
    expect(refused.drill).toBe("stedy");
    expect(refused.problems.map(({ where }) => where.pointer)).toEqual(["/take", "/drill"]);
  });
});
