import { describe, expect, test } from "vitest";
import { changeEdition, fold, placeByTeacher } from "../../lib/progress/index.js";
import { openReport } from "../../lib/report/index.js";
import type { StudentPlace } from "../../lib/schema/index.js";
import { at, courseOf, timeOf } from "../progress/course.js";
import { beginLessons, type Lessons, playRow } from "../progress/lessons.js";

const LADDER = { tempi: [80, 4, 4], gate: { kind: "in a row", count: 2 }, goBack: { after: 2, by: 1 } } as const;
const COURSE = courseOf([{ name: "quay", ...LADDER }]);

function placeOf({ journal }: Lessons, now = timeOf(86_400)): StudentPlace {
  const report = openReport({ at: now });
  report.add({ student: "tern", curriculum: COURSE.name, events: journal, courseOf: () => COURSE });
  return report.close().students[0]!.courses[0]!.places[0]!;
}

describe("somebody who goes back and up again", () => {
  test("gains nothing by it: the count goes on from the last new rung", () => {
    const lessons = beginLessons(COURSE);
    // Up to the second rung; then down twice, up once, and so on round.
    playRow(lessons, COURSE, { drill: "quay", takes: "ww" });
    const arrived = lessons.journal.at(-1)!.at;
    playRow(lessons, COURSE, { drill: "quay", takes: "bbwwbbwwbbww" });
    const place = placeOf(lessons);
    expect(place).toMatchObject({ rung: at(84), number: 2, takes: { within: 0, beyond: 0, unclear: 0 } });
    expect(place.stall).toMatchObject({ since: arrived, takes: { within: 6, beyond: 6, unclear: 0 } });
  });

  test("begins anew on a rung never played before, and where the teacher says", () => {
    const lessons = beginLessons(COURSE);
    playRow(lessons, COURSE, { drill: "quay", takes: "wbwbwbwbwb" });
    expect(placeOf(lessons).stall?.takes).toEqual({ within: 5, beyond: 5, unclear: 0 });
    const placed = placeByTeacher(COURSE, lessons.standing, { drill: "quay", rung: at(80), at: timeOf(3600) });
    if (!placed.ok) throw new Error("not placed");
    lessons.journal.push(...placed.value.events);
    expect(placeOf(lessons)).toMatchObject({ rung: at(80), since: timeOf(3600) });
    expect(placeOf(lessons).stall).toBeUndefined();
  });

  test("has all takes of the stay counted, also those of a device that had not heard of the drill's new name", () => {
    const lessons = beginLessons(COURSE);
    const renamed = courseOf([{ name: "pier", ...LADDER }], { edition: "2.0.0", formerly: { quay: "pier" } });
    const over = changeEdition(renamed, lessons.standing, { at: timeOf(1), before: COURSE });
    playRow(lessons, COURSE, { drill: "quay", takes: "wbwbwbwbwb" });
    lessons.journal.push(...over.events);
    const back = changeEdition(COURSE, fold(lessons.journal).standing!, { at: timeOf(3600), before: renamed });
    lessons.journal.push(...back.events);
    const all = { within: 5, beyond: 5, unclear: 0 };
    expect(placeOf(lessons)).toMatchObject({ drill: "quay", rung: at(80), takes: all, stall: { takes: all } });
  });

  test("is not called stuck without the course, and the report says why", () => {
    const lessons = beginLessons(COURSE);
    playRow(lessons, COURSE, { drill: "quay", takes: "b".repeat(40) });
    const report = openReport({ at: timeOf(86_400) });
    report.add({ student: "tern", curriculum: COURSE.name, events: lessons.journal });
    const [place] = report.close().students[0]!.courses[0]!.places;
    expect(place).toMatchObject({ stuckAfter: { unmeasured: "the course is not at hand" } });
    expect(place).not.toHaveProperty("stall");
    expect(place).not.toHaveProperty("index");
  });
});

describe("somebody who does not play", () => {
  test("is quiet after three weeks without a take, from the last take or the enrolment on, as long as a drill is open", () => {
    const lessons = beginLessons(COURSE);
    const quietAt = (now: string): boolean => {
      const report = openReport({ at: now });
      report.add({ student: "tern", curriculum: COURSE.name, events: lessons.journal, courseOf: () => COURSE });
      return report.close().students[0]!.courses[0]!.quiet;
    };
    expect([20, 21].map((days) => quietAt(timeOf(days * 86_400)))).toEqual([false, true]);
    playRow(lessons, COURSE, { drill: "quay", takes: "w" });
    expect(quietAt(timeOf(21 * 86_400))).toBe(false);
    expect(quietAt(timeOf(21 * 86_400 + 60))).toBe(true);
    playRow(lessons, COURSE, { drill: "quay", takes: "wwwwwww" });
    expect(quietAt(timeOf(99 * 86_400))).toBe(false);
  });
});
