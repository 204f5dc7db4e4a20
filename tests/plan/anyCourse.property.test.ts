import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import { findRung, isPreparation, rungs, scoreOf } from "../../lib/drill/index.js";
import { demandOf, nextTake, type Plan, planSession } from "../../lib/plan/index.js";
import { drillStanding } from "../../lib/progress/index.js";
import { playTake } from "../../lib/rehearsal/index.js";
import { checkPlan, type Verdict } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { sample } from "../samples.js";
import { ROOT } from "../sources.js";
import { must } from "../time/shorthand.js";
import { enrolled, played } from "./course.js";
import { someCourse } from "./randomCourse.js";

/** Steadier than anybody who was measured, so that what this player cannot show nobody can. */
const STILL = { motorMs: 3, clockMs: 1.5, biasPercent: 0, correction: 0.36, offsetMs: -15, missing: 0, adding: 0 };

const cleanAt = (course: Curriculum, drill: number, index: number): boolean => {
  const rung = rungs(course.drills[drill]!).at(index);
  const score = scoreOf(rung);
  return [0, 1, 2].some(
    (i) => assess(score, playTake(score, STILL, `${drill} ${index} ${i}`).take).verdict === "within",
  );
};

const shipped = ["first-course", "odd-meters", "wind-and-brass"].map((name) =>
  must(
    readCurriculum(readFileSync(join(ROOT, "curricula", `quayside-${name}.yaml`), "utf8"), {
      file: name,
      readFile: () => undefined,
    }),
  ),
);

const KIT_LEAVES = `
curriculum: quayside-sticks
edition: 1.0.0
title: Sticks on the quay
patterns:
  planks:
    meter: 4/4
    bars: 4
    key: D dorian
    parts:
      kit: { voices: { snare: "x-x-x-x-|..." } }
      drummer: { voices: { snare: "x---x-x-|...", kick: "x-------|..." } }
      bass: { instrument: double bass, notes: "1/2 D2 A2 | ..." }
drills:
  planks-alone:
    pattern: planks
    student: drummer
    dropout: { length: 1 bar, parts: [kit] }
    ladders: [{ tempo: { from: 80, to: 112, by: 8 } }]
    tolerance: { drift: 6 %, landing: 90 ms, steadiness: 35 ms }
    gate: { clean: 3, of: 4 }
`;
const sticks = must(readCurriculum(KIT_LEAVES, { file: "sticks.yaml", readFile: () => undefined }));

describe("a rung that no take could show clean", () => {
  test("is in no shipped course, nor in a course for drums where only the kit leaves", () => {
    for (const course of [...shipped, sticks])
      course.drills.forEach((drill, d) => {
        const { count } = rungs(drill);
        for (const index of new Set([0, Math.floor(count / 3), Math.floor(count / 2), count - 1]))
          expect(cleanAt(course, d, index), `${course.name} ${drill.name} ${index}`).toBe(true);
      });
  });

  test("is in no course that check lets through", () => {
    fc.assert(
      fc.property(someCourse, fc.double({ min: 0, max: 0.999, noNaN: true }), (course, place) => {
        course.drills.forEach((drill, d) => {
          expect(cleanAt(course, d, Math.floor(place * rungs(drill).count))).toBe(true);
        });
      }),
      { numRuns: sample({ suite: 12, proof: 300 }) },
    );
  });

  test("is an error of check", () => {
    const strict = KIT_LEAVES.replace("drift: 6 %", "drift: 1 ms");
    const read = readCurriculum(strict, { file: "sticks.yaml", readFile: () => undefined });
    expect(read.ok ? [] : read.problems.map(({ code }) => code)).toContain("TOLERANCE_BELOW_MEASUREMENT");
  });

  test("never enters a plan, which tells the teacher, though a course was compiled with it", () => {
    const drill = { ...sticks.drills[0]!, tolerance: { ...sticks.drills[0]!.tolerance, drift: { ms: 0.2 } } } as never;
    const course: Curriculum = { ...sticks, drills: [drill] };
    const plan = must(
      planSession({ curriculum: course, ...enrolled(course), today: "2026-03-20", minutes: 20, seed: 1 }),
    );
    expect(plan.lines).toEqual([]);
    expect(plan.messages.map(({ key }) => key)).toContain("plan.never-clean");
  });
});

interface Case {
  readonly course: Curriculum;
  readonly letters: string;
  readonly minutes: number;
  readonly instrument: string | undefined;
  readonly verdicts: readonly Verdict[];
}

const someone: fc.Arbitrary<Case> = fc.record({
  course: someCourse,
  letters: fc
    .array(fc.constantFrom("w", "w", "w", "b", "b", "u"), { maxLength: 40 })
    .map((letters) => letters.join("")),
  minutes: fc.oneof(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 61, max: 600 })),
  instrument: fc.constantFrom(undefined, "trombone", "alto saxophone", "violin", "drum kit", "nobody knows what"),
  verdicts: fc.array(fc.constantFrom<Verdict>("within", "within", "beyond", "unclear"), {
    minLength: 80,
    maxLength: 80,
  }),
});

function planOf({ course, letters, minutes, instrument }: Case): {
  readonly plan: Plan;
  readonly closed: ReadonlySet<string>;
} {
  const student = played(letters, { curriculum: course });
  const request = { curriculum: course, ...student, today: "2026-03-20", minutes, seed: 1 };
  const plan = must(planSession({ ...request, ...(instrument === undefined ? {} : { instrument }) }));
  const closed = course.drills.filter(({ name }) => drillStanding(student.standing, name)?.state === "closed");
  return { plan, closed: new Set(closed.map(({ name }) => name)) };
}

describe("a plan of any course, journal and number of minutes", () => {
  test("keeps to its schema, the minutes, the hour, the rests and half a session a rung, however its takes go", () => {
    fc.assert(
      fc.property(someone, (each) => {
        const { plan, closed } = planOf(each);
        expect(checkPlan(JSON.parse(JSON.stringify(plan)))).toMatchObject({ ok: true });
        const most = 60 * Math.min(60, each.minutes);
        expect(plan.seconds).toBeLessThanOrEqual(most);
        expect(plan.rest.after).toBeGreaterThanOrEqual(2);
        expect(plan.rest.after).toBeLessThanOrEqual(6);
        if (each.instrument === "trombone") expect(plan.rest.after).toBeLessThan(4);
        const said = plan.messages.map(({ key }) => key);
        expect(said.includes("plan.day-enough")).toBe(each.minutes > 60 && plan.lines.length > 0);

        // What was open when the plan was made may open more; a drill that was closed is reached only through those it needs.
        const counts = new Map<string, { takes: number; seconds: number }>();
        let [used, first] = [0, true];
        for (let n = 0; n < each.verdicts.length; n++) {
          const next = nextTake(plan, each.verdicts.slice(0, n));
          if (next === undefined) break;
          const { step, rested } = next;
          if (first) expect(closed.has(step.drill)).toBe(false);
          first = false;
          used += step.seconds + (rested ? plan.rest.seconds : 0);
          const key = `${step.drill} ${step.rung}`;
          const before = counts.get(key) ?? { takes: 0, seconds: 0 };
          counts.set(key, { takes: before.takes + 1, seconds: before.seconds + step.seconds });
          const drill = each.course.drills.find(({ name }) => name === step.drill)!;
          const rung = must(findRung(drill, step.rung));
          expect(isPreparation(rung)).toBe(step.number === null);
          expect(demandOf(scoreOf(rung)).silences.every(({ errors }) => errors.every(Number.isFinite))).toBe(true);
        }
        expect(used).toBeLessThanOrEqual(most);
        // One take there may be of anything there is time for, and one of a warm-up or review beside the work.
        for (const { takes, seconds } of counts.values())
          expect(takes <= 2 || seconds - seconds / takes <= most / 2, JSON.stringify([takes, seconds, most])).toBe(
            true,
          );
      }),
      { numRuns: sample({ suite: 12, proof: 400 }) },
    );
  });

  test("has no line of a closed drill", () => {
    fc.assert(
      fc.property(someone, (each) => {
        const { plan, closed } = planOf(each);
        for (const line of plan.lines) if (line.kind !== "rest") expect(closed.has(line.drill)).toBe(false);
      }),
      { numRuns: sample({ suite: 8, proof: 300 }) },
    );
  });
});
