import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drillStanding, fold, rungStanding } from "../../lib/progress/index.js";
import { openReport } from "../../lib/report/index.js";
import type { LengthDrift, ReportTally } from "../../lib/schema/index.js";
import { checkReport } from "../../lib/schema/index.js";
import { timeOf } from "../progress/course.js";
import { add, CURRICULUM, classOf, type Pupil, reportOf } from "./journals.js";

const RUNS = { numRuns: 25, endOnFailure: true };
const NOW = timeOf(400 * 86_400);
const sum = (tallies: readonly ReportTally[]): ReportTally =>
  tallies.reduce(
    (all, { within, beyond, unclear }) => ({
      within: all.within + within,
      beyond: all.beyond + beyond,
      unclear: all.unclear + unclear,
    }),
    { within: 0, beyond: 0, unclear: 0 },
  );

/** Whether an edition moved a student in a drill, or let it go on. */
const isTouched = (pupils: readonly Pupil[], student: string, drill: string): boolean =>
  pupils
    .find((pupil) => pupil.student === student)!
    .events.some(
      (event) =>
        event.kind === "edition changed" &&
        [...event.moved.map((move) => move.drill), ...event.reopened].some(
          (name) => name === drill || event.renamed.some(({ to }) => to === drill),
        ),
    );

describe("a report", () => {
  test("as of a moment is the report of the events until then, whoever asks later", () => {
    fc.assert(
      fc.property(classOf, fc.nat(200 * 60), (pupils, seconds) => {
        const at = timeOf(seconds);
        const then = pupils.map((pupil) => ({
          ...pupil,
          events: pupil.events.filter((event) => Date.parse(event.at) <= Date.parse(at)),
        }));
        expect(reportOf(pupils, { at, asOf: true })).toEqual(reportOf(then, { at }));
      }),
      RUNS,
    );
  });

  test("does not depend on the order in which journals and events come, nor on how often events do", () => {
    fc.assert(
      fc.property(classOf, fc.infiniteStream(fc.nat()), (pupils, chance) => {
        const mixed = pupils.map((pupil) => ({
          ...pupil,
          events: [...pupil.events, ...pupil.events.filter(() => chance.next().value! % 3 === 0)]
            .map((event) => ({ event, key: chance.next().value! }))
            .sort((a, b) => a.key - b.key)
            .map(({ event }) => event),
        }));
        expect(JSON.stringify(reportOf([...mixed].reverse(), { at: NOW }))).toBe(
          JSON.stringify(reportOf(pupils, { at: NOW })),
        );
      }),
      RUNS,
    );
  });

  test("has every student once, and is what its schema says", () => {
    fc.assert(
      fc.property(classOf, (pupils) => {
        const report = reportOf(pupils, { at: NOW });
        expect(report.students.map(({ student }) => student).sort()).toEqual(
          pupils.map(({ student }) => student).sort(),
        );
        expect(checkReport(JSON.parse(JSON.stringify(report)))).toMatchObject({ ok: true });
      }),
      RUNS,
    );
  });

  test("of a class is the sum of the reports of its students", () => {
    fc.assert(
      fc.property(classOf, fc.boolean(), (pupils, isLate) => {
        const options = { at: NOW, ...(isLate ? { since: timeOf(3600).slice(0, 10) } : {}) };
        const all = reportOf(pupils, options);
        const each = pupils.map((pupil) => reportOf([pupil], options));
        const students = each.flatMap((report) => report.students);
        expect(new Map(all.students.map((one) => [one.student, one]))).toEqual(
          new Map(students.map((one) => [one.student, one])),
        );
        const [course] = all.courses;
        const courses = each.flatMap((report) => report.courses);
        expect(course?.students).toBe(pupils.length);
        expect(course?.takes).toEqual(sum(courses.map(({ takes }) => takes)));
        for (const key of ["stuck", "quiet"] as const)
          expect(course?.[key]).toBe(courses.reduce((total, own) => total + own[key], 0));
        for (const { drill, places, complete } of course!.drills) {
          const own = courses.flatMap(({ drills }) => drills.filter((held) => held.drill === drill));
          expect(complete).toBe(own.reduce((total, held) => total + held.complete, 0));
          for (const { rung, students: there } of places) {
            const here = own.flatMap((held) => held.places.filter((place) => place.rung === rung));
            expect(there).toBe(here.length);
          }
        }
        const key = ({ length, told }: LengthDrift): string => `${length} ${told}`;
        for (const row of all.drift) {
          const own = each.flatMap(({ drift }) => drift.filter((one) => key(one) === key(row)));
          for (const figure of ["takes", "measured", "unmeasured"] as const) {
            expect(row[figure]).toBe(own.reduce((total, one) => total + one[figure], 0));
            expect(row[figure]).toBe(row.weeks.reduce((total, week) => total + week[figure], 0));
          }
          expect(row.driftMs === undefined).toBe(row.measured === 0);
        }
      }),
      RUNS,
    );
  });

  test("has a student where the journal's standing has them, with the takes of that stay", () => {
    fc.assert(
      fc.property(classOf, (pupils) => {
        const report = reportOf(pupils, { at: NOW });
        for (const { student, events } of pupils) {
          const standing = fold(events).standing!;
          const { places, complete, edition } = report.students.find((one) => one.student === student)!.courses[0]!;
          expect(edition).toBe(standing.edition);
          const open = standing.drills.filter(({ state, withdrawn }) => state === "open" && withdrawn !== true);
          expect(places.map(({ drill, rung }) => [drill, rung])).toEqual(open.map(({ drill, rung }) => [drill, rung]));
          expect(complete).toEqual(
            standing.drills.flatMap(({ drill, state }) => (state === "complete" ? [drill] : [])),
          );
          for (const { drill, rung, takes, since } of places) {
            const { outcomes, from } = rungStanding(drillStanding(standing, drill)!, rung)!;
            const count = (letter: string): number => outcomes.slice(from).split(letter).length - 1;
            expect(takes).toEqual({ within: count("w"), beyond: count("b"), unclear: count("u") });
            expect(events.map(({ at }) => at)).toContain(since);
          }
        }
      }),
      RUNS,
    );
  });

  test("calls somebody stuck exactly when so many takes brought no new rung, and says of each take not clean what it failed on", () => {
    let stuck = 0;
    fc.assert(
      fc.property(classOf, (pupils) => {
        for (const { student, courses } of reportOf(pupils, { at: NOW }).students) {
          for (const { drill, stall, stuckAfter, takes } of courses.flatMap(({ places }) => places)) {
            if (stall === undefined) {
              // The stay on the rung is part of the time since the last new one, unless an edition moved the student, or let a complete drill go on.
              if (typeof stuckAfter === "number" && !isTouched(pupils, student, drill))
                expect(takes.within + takes.beyond + takes.unclear).toBeLessThan(stuckAfter);
              continue;
            }
            stuck++;
            expect(stall.takes.within + stall.takes.beyond + stall.takes.unclear).toBeGreaterThanOrEqual(
              stuckAfter as number,
            );
            expect(stall.on.reduce((total, { takes: failed }) => total + failed, 0)).toBe(
              stall.takes.beyond + stall.takes.unclear,
            );
          }
        }
      }),
      { ...RUNS, numRuns: 40 },
    );
    expect(stuck).toBeGreaterThan(0);
  });

  test("is empty without journals, and leaves out a journal that had not begun", () => {
    expect(reportOf([], { at: NOW })).toEqual({ version: 2, at: NOW, students: [], courses: [], drift: [] });
    fc.assert(
      fc.property(classOf, (pupils) => {
        expect(reportOf(pupils, { at: timeOf(-1), asOf: true }).students).toEqual([]);
      }),
      { numRuns: 5 },
    );
  });

  test("has a student whose enrolment has not arrived, and says so by leaving out the edition", () => {
    fc.assert(
      fc.property(classOf, (pupils) => {
        const [{ student, events }] = pupils as [(typeof pupils)[number]];
        const late = events.filter(({ kind }) => kind !== "enrolled");
        if (late.length === 0) return;
        const [one] = reportOf([{ student, events: late }], { at: NOW }).students;
        expect(one).toEqual({
          student,
          courses: [
            {
              curriculum: CURRICULUM,
              quiet: false,
              takes: { within: 0, beyond: 0, unclear: 0 },
              complete: [],
              places: [],
            },
          ],
        });
      }),
      { numRuns: 5 },
    );
  });

  test("refuses the same journal twice", () => {
    const [pupil] = fc.sample(classOf, { numRuns: 1, seed: 1 })[0]!;
    const report = openReport({ at: NOW });
    add(report, pupil!);
    expect(() => add(report, pupil!)).toThrow(RangeError);
  });
});
