import { describe, expect, test } from "vitest";
import {
  apply,
  beginJournal,
  changeEdition,
  decide,
  drillStanding,
  fold,
  placeByTeacher,
  rungStanding,
} from "../../../lib/progress/index.js";
import { checkEvent, checkStanding } from "../../../lib/schema/index.js";
import { at, courseOf, findingOf, timeOf } from "../course.js";
import { beginLessons, play, playRow } from "../lessons.js";

const course = courseOf([
  { name: "steady", tempi: [80, 4, 3], gate: { kind: "in a row", count: 2 }, goBack: { after: 2, by: 1 } },
  { name: "half-bar", tempi: [80, 4, 5], goBack: { after: 3, by: 2 }, needs: ["steady"] },
  { name: "free", tempi: [60, 10, 2] },
]);

describe("beginJournal()", () => {
  test("opens every drill that needs nothing, on its first rung", () => {
    const { events, standing } = beginJournal(course, "tern", timeOf(0));
    expect(events.map((event) => event.kind)).toEqual(["enrolled", "drill opened", "drill opened"]);
    expect(standing.drills.map(({ drill, state, rung }) => [drill, state, rung])).toEqual([
      ["steady", "open", at(80)],
      ["free", "open", at(60)],
    ]);
  });

  test("refuses a time that is none and a student without name", () => {
    expect(() => beginJournal(course, "tern", "2 March 2026")).toThrow(RangeError);
    expect(() => beginJournal(course, "tern", "2026-13-02T17:00:00Z")).toThrow(RangeError);
    expect(() => beginJournal(course, "", timeOf(0))).toThrow(RangeError);
  });
});

describe("decide()", () => {
  test("by an earlier edition than the student's moves nobody and counts nothing; with the later one the same take counts", () => {
    const later = { ...course, edition: "1.10.0" };
    const earlier = { ...course, edition: "1.9.0" };
    const { standing } = beginJournal(later, "tern", timeOf(0));
    const finding = findingOf("a", "steady", at(80), "within");
    const refused = decide(earlier, standing, finding, timeOf(1));
    expect(refused).toMatchObject({ what: "not counted", events: [], problems: [{ code: "EDITION_BEHIND" }] });
    expect(refused.problems[0]).toMatchObject({
      message: expect.stringMatching(/tern is in edition 1\.10\.0 .* later than 1\.9\.0/),
      remedy: expect.stringContaining("1.10.0"),
    });
    expect(refused.standing).toBe(standing);
    const counted = decide(later, standing, finding, timeOf(1));
    expect(counted).toMatchObject({ what: "hold", problems: [] });
    // A take that was counted is recalled, whatever the edition of who asks.
    expect(decide(earlier, counted.standing, finding, timeOf(2))).toMatchObject({
      known: true,
      events: [],
      problems: [],
    });
    // Moving back is asked for as such, and the earlier edition counts then.
    const back = changeEdition(earlier, standing, { at: timeOf(1) }).standing;
    expect(decide(earlier, back, finding, timeOf(2))).toMatchObject({ what: "hold", problems: [] });
  });

  test("advances when the gate is met, and names the takes", () => {
    const lessons = beginLessons(course);
    expect(play(lessons, course, { drill: "steady", verdict: "within" })).toMatchObject({
      what: "hold",
      from: at(80),
      to: at(80),
      reason: "This take was clean. You need 2 clean takes in a row; you have 1.",
    });
    expect(play(lessons, course, { drill: "steady", verdict: "within" })).toMatchObject({
      what: "advance",
      from: at(80),
      to: at(84),
      evidence: ["t1", "t2"],
      reason: "The gate is met (2 clean takes in a row): on to tempo 84.",
    });
  });

  test("starts from nothing on the next rung", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "ww" });
    expect(playRow(lessons, course, { drill: "steady", takes: "w" }).what).toBe("hold");
  });

  test("weighs n of m over the last m clear takes", () => {
    const lessons = beginLessons(course);
    expect(playRow(lessons, course, { drill: "free", takes: "wbwb" }).what).toBe("hold");
    expect(playRow(lessons, course, { drill: "free", takes: "w" }).what).toBe("hold");
    expect(playRow(lessons, course, { drill: "free", takes: "w" })).toMatchObject({
      what: "advance",
      evidence: ["t3", "t5", "t6"],
    });
    expect(lessons.journal.at(-1)).toMatchObject({ kind: "advanced", against: ["t4"] });
  });

  test("never advances by a take beyond tolerance, also when an easier gate of a new edition is met by the takes before it", () => {
    const strict = courseOf([{ name: "steady", tempi: [80, 4, 3], gate: { kind: "clean of last", clean: 3, of: 4 } }]);
    const easier = courseOf([{ name: "steady", tempi: [80, 4, 3], gate: { kind: "clean of last", clean: 2, of: 4 } }], {
      edition: "2.0.0",
    });
    const lessons = beginLessons(strict);
    expect(playRow(lessons, strict, { drill: "steady", takes: "ww" }).what).toBe("hold");
    expect(play(lessons, easier, { drill: "steady", verdict: "beyond" })).toMatchObject({ what: "hold", to: at(80) });
    expect(play(lessons, easier, { drill: "steady", verdict: "within" })).toMatchObject({
      what: "advance",
      evidence: ["t1", "t2", "t4"],
    });
  });

  test("decides nothing by a take of another rung, also when an easier gate of a new edition is met on the student's", () => {
    const strict = courseOf([{ name: "steady", tempi: [80, 4, 3], gate: { kind: "clean of last", clean: 3, of: 4 } }]);
    const easier = courseOf([{ name: "steady", tempi: [80, 4, 3], gate: { kind: "clean of last", clean: 2, of: 4 } }], {
      edition: "2.0.0",
    });
    const lessons = beginLessons(strict);
    playRow(lessons, strict, { drill: "steady", takes: "ww" });
    const decided = decide(easier, lessons.standing, findingOf("elsewhere", "steady", at(88), "within"), timeOf(9));
    expect(decided).toMatchObject({ what: "hold", from: at(80), to: at(80), evidence: [] });
  });

  test("lets an unclear take change nothing: no row is broken, nothing is made easier or met by it", () => {
    const lessons = beginLessons(course);
    expect(playRow(lessons, course, { drill: "steady", takes: "wu" })).toMatchObject({
      what: "hold",
      reason: "The take is unclear, so it changes nothing.",
    });
    expect(playRow(lessons, course, { drill: "steady", takes: "w" })).toMatchObject({
      what: "advance",
      evidence: ["t1", "t3"],
    });
    expect(playRow(lessons, course, { drill: "steady", takes: "bu" }).what).toBe("hold");
    expect(playRow(lessons, course, { drill: "steady", takes: "b" })).toMatchObject({
      what: "go back",
      evidence: ["t4", "t6"],
    });
  });

  test("completes a drill on its last rung and opens what needs it", () => {
    const lessons = beginLessons(course);
    const decision = playRow(lessons, course, { drill: "steady", takes: "wwwwww" });
    expect(decision).toMatchObject({ what: "complete", opened: ["half-bar"], evidence: ["t5", "t6"] });
    expect(decision.events.map((event) => event.kind)).toEqual(["take assessed", "drill completed", "drill opened"]);
    expect(drillStanding(lessons.standing, "half-bar")).toMatchObject({ state: "open", rung: at(80) });
    expect(playRow(lessons, course, { drill: "steady", takes: "b" }).reason).toBe(
      "Drill steady is complete; the take is kept.",
    );
  });

  test("keeps takes of a drill that is not open, without effect", () => {
    const lessons = beginLessons(course);
    const decision = play(lessons, course, { drill: "half-bar", verdict: "within", rung: at(80) });
    expect(decision).toMatchObject({ what: "hold", to: undefined });
    expect(decision.reason).toContain("it needs steady");
    playRow(lessons, course, { drill: "steady", takes: "wwwwww" });
    expect(rungStanding(drillStanding(lessons.standing, "half-bar")!, at(80))).toMatchObject({
      takes: ["t1"],
      from: 1,
    });
  });

  test("keeps takes of another rung than the student's, without effect", () => {
    const lessons = beginLessons(course);
    expect(play(lessons, course, { drill: "steady", verdict: "within", rung: at(84) }).what).toBe("hold");
    expect(playRow(lessons, course, { drill: "steady", takes: "w" }).what).toBe("hold");
    playRow(lessons, course, { drill: "steady", takes: "w" });
    expect(playRow(lessons, course, { drill: "steady", takes: "w" }).what).toBe("hold");
  });

  test("reads the settings of a take in any order", () => {
    const lessons = beginLessons(course);
    play(lessons, course, { drill: "steady", verdict: "within", rung: "variant=plain,tempo=80.0" });
    expect(playRow(lessons, course, { drill: "steady", takes: "w" }).what).toBe("advance");
  });

  test("counts a take once, whatever is made of it the second time", () => {
    const lessons = beginLessons(course);
    play(lessons, course, { drill: "steady", verdict: "within", name: "a" });
    for (const verdict of ["within", "beyond"] as const) {
      const again = play(lessons, course, { drill: "steady", verdict, name: "a" });
      expect(again).toMatchObject({ what: "hold", events: [] });
      expect(again.reason).toMatch(/^Take a was counted before\./);
    }
    expect(play(lessons, course, { drill: "free", verdict: "within", name: "a" }).events).toEqual([]);
  });

  test("gives the same events with the same ids when asked again", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "w" });
    const finding = findingOf("t2", "steady", at(80), "within");
    const first = decide(course, lessons.standing, finding, timeOf(99));
    expect(decide(course, lessons.standing, finding, timeOf(99))).toEqual(first);
    const later = decide(course, lessons.standing, finding, timeOf(1000));
    expect(later.events.map(({ id }) => id)).toEqual(first.events.map(({ id }) => id));
    expect(fold([...lessons.journal, ...first.events, ...later.events]).standing).toEqual(first.standing);
  });

  test("makes good a decision that an interrupted writer lost, when its take is handed in again", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "w" });
    const finding = findingOf("t2", "steady", at(80), "within");
    const whole = decide(course, lessons.standing, finding, timeOf(99));
    const torn = apply(lessons.standing, whole.events[0]!).standing;
    const again = decide(course, torn, finding, timeOf(200));
    expect(again.what).toBe("advance");
    expect(again.events.map(({ id }) => id)).toEqual(whole.events.slice(1).map(({ id }) => id));
    expect(again.standing.drills).toEqual(whole.standing.drills);
  });

  test("decides nothing by a take of another rung that is handed in again as one of the student's", () => {
    const lessons = beginLessons(course);
    play(lessons, course, { drill: "steady", verdict: "within", rung: at(84), name: "elsewhere" });
    playRow(lessons, course, { drill: "steady", takes: "w" });
    // The gate is met, but its decision was lost.
    const whole = decide(course, lessons.standing, findingOf("t9", "steady", at(80), "within"), timeOf(99));
    const torn = apply(lessons.standing, whole.events[0]!).standing;
    const again = decide(course, torn, findingOf("elsewhere", "steady", at(80), "within"), timeOf(200));
    expect(again).toMatchObject({ what: "hold", to: at(80), events: [] });
  });

  test("opens nothing by an unclear take, also what an interrupted writer left closed", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "wwwww" });
    const last = decide(course, lessons.standing, findingOf("t9", "steady", at(88), "within"), timeOf(900));
    expect(last.events.map(({ kind }) => kind)).toEqual(["take assessed", "drill completed", "drill opened"]);
    const torn = last.events.slice(0, 2).reduce((standing, event) => apply(standing, event).standing, lessons.standing);
    expect(decide(course, torn, findingOf("t10", "free", at(60), "unclear"), timeOf(950)).opened).toEqual([]);
    expect(decide(course, torn, findingOf("t10", "free", at(60), "beyond"), timeOf(950)).opened).toEqual(["half-bar"]);
  });

  test("goes back after enough takes in a row beyond, never past the first rung, and asks for the gate anew", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "ww" });
    expect(playRow(lessons, course, { drill: "steady", takes: "wbb" })).toMatchObject({
      what: "go back",
      from: at(84),
      to: at(80),
      evidence: ["t4", "t5"],
    });
    expect(lessons.journal.at(-1)).toMatchObject({ kind: "gone back", lapsed: [at(80)] });
    expect(playRow(lessons, course, { drill: "steady", takes: "bb" })).toMatchObject({ what: "hold", to: at(80) });
    expect(playRow(lessons, course, { drill: "steady", takes: "w" }).what).toBe("hold");
    expect(playRow(lessons, course, { drill: "steady", takes: "w" }).what).toBe("advance");
  });

  test("goes back by several rungs, but not below the first", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "wwwwww" });
    playRow(lessons, course, { drill: "half-bar", takes: "www" });
    expect(playRow(lessons, course, { drill: "half-bar", takes: "bbb" })).toMatchObject({ from: at(84), to: at(80) });
    playRow(lessons, course, { drill: "half-bar", takes: "wwwwwwwww" });
    expect(playRow(lessons, course, { drill: "half-bar", takes: "bbb" })).toMatchObject({ from: at(92), to: at(84) });
  });

  test("never counts a teacher's placement as evidence", () => {
    const lessons = beginLessons(course);
    const placed = placeByTeacher(course, lessons.standing, {
      drill: "half-bar",
      rung: "tempo=96",
      at: timeOf(5),
      teacher: "harbour",
    });
    if (!placed.ok) throw new Error("not placed");
    lessons.standing = placed.value.standing;
    expect(drillStanding(lessons.standing, "half-bar")).toMatchObject({
      state: "open",
      rung: at(96),
      by: "set by teacher",
    });
    expect(playRow(lessons, course, { drill: "half-bar", takes: "ww" }).what).toBe("hold");
    expect(playRow(lessons, course, { drill: "half-bar", takes: "w" }).what).toBe("complete");
    const raised = placeByTeacher(course, beginLessons(course).standing, { drill: "steady", rung: "3", at: timeOf(5) });
    expect(raised.ok && drillStanding(raised.value.standing, "half-bar")).toBeUndefined();
    expect(raised.ok && drillStanding(raised.value.standing, "steady")?.completed).toBeUndefined();
  });

  test("says that a placement test put the student there, when it did: the same rung, and no more evidence", () => {
    const lessons = beginLessons(course);
    const asked = { drill: "half-bar", rung: "tempo=96", at: timeOf(5) };
    const [test, teacher] = [{ ...asked, by: "placement test" as const }, asked].map((placement) => {
      const placed = placeByTeacher(course, lessons.standing, placement);
      if (!placed.ok) throw new Error("not placed");
      expect(placed.value.events.map(checkEvent)).toMatchObject([{ ok: true }]);
      return placed.value;
    });
    expect(test!.events).toMatchObject([{ kind: "set by teacher", by: "placement test" }]);
    expect(teacher!.events[0]).not.toHaveProperty("by");
    const held = drillStanding(test!.standing, "half-bar");
    expect(held).toEqual({ ...drillStanding(teacher!.standing, "half-bar"), by: "placement test" });
    expect(fold([...lessons.journal, ...test!.events]).standing).toEqual(test!.standing);
    expect(checkStanding(test!.standing)).toMatchObject({ ok: true });
  });

  test("refuses a placement on what is not there", () => {
    const { standing } = beginLessons(course);
    const misspelt = placeByTeacher(course, standing, { drill: "half bar", rung: "1", at: timeOf(5) });
    expect(misspelt).toMatchObject({ problems: [{ code: "PROGRESS_DRILL_UNKNOWN", remedy: "write half-bar" }] });
    const offLadder = placeByTeacher(course, standing, { drill: "steady", rung: "tempo=81", at: timeOf(5) });
    expect(offLadder).toMatchObject({ problems: [{ code: "RUNG_NOT_FOUND" }] });
  });

  test("names everything that keeps a finding from being counted", () => {
    const { standing } = beginLessons(course);
    const { take: _take, ...nameless } = findingOf("x", "stedy", at(80), "within");
    const decision = decide({ ...course, name: "other" }, standing, nameless, timeOf(1));
    expect(decision).toMatchObject({ what: "not counted", events: [], standing });
    expect(decision.problems.map(({ code }) => code)).toEqual([
      "CURRICULUM_OTHER",
      "FINDING_INCOMPLETE",
      "PROGRESS_DRILL_UNKNOWN",
    ]);
    // A program names its drill, so no name is guessed; all there are are listed.
    expect(decision.problems[2]!.message).toMatch(/are steady, .*; found stedy$/);
    const long = decide(course, standing, findingOf("x".repeat(201), "steady", at(80), "within"), timeOf(1));
    expect(long.problems).toMatchObject([{ code: "FINDING_INCOMPLETE" }]);
  });

  test("counts no take without a name, and one of the longest name", () => {
    const { standing } = beginLessons(course);
    const nameless = decide(course, standing, findingOf("", "steady", at(80), "within"), timeOf(1));
    expect(nameless).toMatchObject({ what: "not counted", problems: [{ where: { pointer: "/take" } }] });
    const longest = decide(course, standing, findingOf("x".repeat(200), "steady", at(80), "within"), timeOf(1));
    expect(longest.events.map(({ kind }) => kind)).toEqual(["take assessed"]);
  });

  test("keeps of a finding what was measured, rounded, and a fingerprint", () => {
    const lessons = beginLessons(course);
    play(lessons, course, { drill: "steady", verdict: "within" });
    expect(lessons.journal.at(-1)).toMatchObject({
      id: "take:t1",
      verdict: "within",
      probability: 0.97,
      measured: { offsetMs: -12.25, accompaniedMs: 14 },
      finding: expect.stringMatching(/^[0-9a-f]{16}$/),
    });
  });

  test("writes events and standings that fit their schemas", () => {
    const lessons = beginLessons(course);
    playRow(lessons, course, { drill: "steady", takes: "wbbuwwwwww" });
    playRow(lessons, course, { drill: "half-bar", takes: "wwwbbb" });
    for (const event of lessons.journal) expect(checkEvent(event)).toMatchObject({ ok: true });
    expect(checkStanding(lessons.standing)).toMatchObject({ ok: true });
    expect(fold(lessons.journal)).toEqual({ standing: lessons.standing, problems: [] });
  });
});
