import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { type Plan, planSession } from "../../lib/plan/index.js";
import { drillStanding, isCompleted, placeByTeacher } from "../../lib/progress/index.js";
import { must } from "../time/shorthand.js";
import { FIRST_COURSE, played, type Student } from "./course.js";

interface Case {
  readonly student: Student;
  readonly taught: string | undefined;
  readonly minutes: number;
  readonly today: string;
  readonly seed: number;
  readonly order: "one by one" | "taking turns";
  readonly target: number;
}

const someone: fc.Arbitrary<Case> = fc
  .record({
    letters: fc.array(fc.constantFrom("w", "w", "w", "w", "b", "u"), { maxLength: 70 }),
    teacher: fc.option(fc.nat(FIRST_COURSE.drills.length - 1), { nil: undefined, freq: 3 }),
    minutes: fc.oneof(fc.integer({ min: 1, max: 180 }), fc.double({ min: 0.1, max: 10, noNaN: true })),
    day: fc.integer({ min: 8, max: 31 }),
    month: fc.integer({ min: 3, max: 12 }),
    seed: fc.nat(),
    order: fc.constantFrom("one by one" as const, "taking turns" as const),
    target: fc.double({ min: 0.5, max: 0.99, noNaN: true }),
  })
  .map(({ letters, teacher, day, month, ...rest }) => {
    const student = played(letters.join(""));
    const taught = teacher === undefined ? undefined : FIRST_COURSE.drills[teacher]!.name;
    if (taught !== undefined) {
      const placed = must(
        placeByTeacher(FIRST_COURSE, student.standing, { drill: taught, rung: "1", at: "2026-03-07T20:00:00Z" }),
      );
      student.standing = placed.standing;
      student.events.push(...placed.events);
    }
    const today = `2026-${String(month).padStart(2, "0")}-${String(Math.min(day, 28)).padStart(2, "0")}`;
    return { student, taught, today, ...rest };
  });

const planOf = ({ student, today, minutes, seed, order, target }: Case): Plan =>
  must(planSession({ curriculum: FIRST_COURSE, ...student, today, minutes, seed, order, target }));

describe("planSession(), for anybody on any day", () => {
  test("never goes over the minutes, and its lines follow each other without gap", () => {
    fc.assert(
      fc.property(someone, (each) => {
        const { lines, seconds } = planOf(each);
        let at = 0;
        for (const line of lines) {
          expect(line.from).toBe(at);
          at += line.seconds;
        }
        expect(seconds).toBe(at);
        expect(at).toBeLessThanOrEqual(60 * each.minutes);
      }),
      { numRuns: 60 },
    );
  });

  test("never plans a rung whose needs are unmet, one above the student's, or one of a closed drill", () => {
    fc.assert(
      fc.property(someone, (each) => {
        const { standing } = each.student;
        for (const line of planOf(each).lines) {
          if (line.kind === "rest") continue;
          const drill = FIRST_COURSE.drills.find(({ name }) => name === line.drill)!;
          const held = drillStanding(standing, drill.name)!;
          expect(held.state).not.toBe("closed");
          expect(drill.needs.every((need) => isCompleted(standing, need)) || each.taught === drill.name).toBe(true);
          const indexOf = (text: string): number =>
            Array.from({ length: rungs(drill).count }, (_, i) => settingsText(rungs(drill).at(i).settings)).indexOf(
              text,
            );
          if (line.number === null) expect(line.kind).toBe("preparation");
          else expect(indexOf(line.rung)).toBeGreaterThanOrEqual(0);
          expect(indexOf(line.rung)).toBeLessThanOrEqual(indexOf(held.rung!));
          expect(line.because).not.toBe("");
        }
      }),
      { numRuns: 60 },
    );
  });

  test("has no drill that is open when an edition since gave it needs that are unmet", () => {
    const drills = FIRST_COURSE.drills.map((drill) =>
      drill.name === "steady" ? { ...drill, needs: ["one-bar"] } : drill,
    );
    fc.assert(
      fc.property(someone, (each) => {
        fc.pre(each.taught !== "steady");
        const { student, ...rest } = each;
        const plan = must(planSession({ curriculum: { ...FIRST_COURSE, drills }, ...student, ...rest }));
        expect(
          isCompleted(student.standing, "one-bar") ||
            !plan.lines.some((line) => line.kind !== "rest" && line.drill === "steady"),
        ).toBe(true);
      }),
      { numRuns: 25 },
    );
  });

  test("is the same for the same request, whatever order the events come in", () => {
    fc.assert(
      fc.property(someone, (each) => {
        const again = { ...each, student: { ...each.student, events: [...each.student.events].reverse() } };
        expect(planOf(again)).toEqual(planOf(each));
      }),
      { numRuns: 25 },
    );
  });
});
