import { describe, expect, test } from "vitest";
import type { Curriculum } from "../../../lib/curriculum/index.js";
import type { Drill } from "../../../lib/drill/index.js";
import { frameOf, prepareRehearsal, rehearsalAdvice, rehearsePart, resultsOf } from "../../../lib/rehearsal/index.js";
import { shipped } from "../courses.js";

/** What a rehearsal advises of one drill of the first course, changed. */
function adviceOn(name: string, change: Partial<Drill>): readonly string[] {
  const course = shipped("first-course");
  const drills = course.drills.map((drill) => (drill.name === name ? { ...drill, ...change } : drill));
  const changed: Curriculum = { ...course, drills };
  const options = { drills: [name], weeks: 30 };
  const ready = prepareRehearsal(changed, options);
  const part = rehearsePart([ready], { from: 0, count: 200 });
  const advice = rehearsalAdvice(changed, resultsOf(part.courses[0]!, frameOf(ready.course), options));
  return advice.map(({ code, where }) => `${code} ${where.pointer}`);
}

const half = shipped("first-course").drills.find(({ name }) => name === "half-bar")!;
const ladders = half.ladders.map((ladder) => ({ ...ladder, count: 1 }));

describe("rehearsalAdvice()", () => {
  test("names a rung that nobody passes where no student can keep its limits", () => {
    const tolerance = { ...half.tolerance, drift: { percent: 0.05 as never } };
    expect(adviceOn("half-bar", { tolerance, ladders })).toContain(
      "REHEARSED_GATE_NOBODY_PASSES /drills/half-bar/gate",
    );
  });

  test("names a wall where a tenth of the students never get on", () => {
    const tolerance = { ...half.tolerance, landing: 45 as never };
    expect(adviceOn("half-bar", { tolerance, ladders })).toContain("REHEARSED_WALL /drills/half-bar/tolerance");
  });

  test("names a rung that nobody can fail", () => {
    const tolerance = { steadiness: 400 as never };
    const steady = shipped("first-course").drills[0]!;
    const short = steady.ladders.map((ladder) => ({ ...ladder, count: 1 }));
    expect(adviceOn("steady", { tolerance, ladders: short })).toEqual([
      "REHEARSED_RUNG_NOBODY_FAILS /drills/steady/tolerance",
    ]);
  });

  test("names a drill that is longer than a term", () => {
    const gate = { kind: "clean of last", clean: 580, of: 1000 } as const;
    expect(adviceOn("half-bar", { gate, ladders })).toContain(
      "REHEARSED_DRILL_LONGER_THAN_TERM /drills/half-bar/ladders",
    );
  });
});
