import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { prepareRehearsal } from "../../../lib/rehearsal/rehearse.js";
import { frameOf } from "../../../lib/rehearsal/report/frame.js";
import { rehearsalReport, reportTerms } from "../../../lib/rehearsal/report/report.js";
import { differencesOf, FIGURES } from "../../../lib/rehearsal/summary/paired.js";
import { joinParts, partOf, partText, rehearsePart } from "../../../lib/rehearsal/summary/part.js";
import { checkRehearsal } from "../../../lib/schema/index.js";
import { shipped } from "../courses.js";

const options = { drills: ["half-bar"], weeks: 3 };
const ready = prepareRehearsal(shipped("first-course"), options);
const random = prepareRehearsal(shipped("first-course"), { ...options, policy: "easiest" });
const both = [ready, random];
const whole = rehearsePart(both, { from: 0, count: 120 });
const terms = reportTerms(ready, "drawn");
const frame = frameOf(ready.course);

describe("parts of a rehearsal", () => {
  test("joined in any order and grouping are the whole, byte for byte, through text and back", () => {
    const cuts = fc.uniqueArray(fc.integer({ min: 1, max: 119 }), { maxLength: 4 });
    fc.assert(
      fc.property(cuts, fc.nat(), (inner, turn) => {
        const ends = [0, ...[...inner].sort((a, b) => a - b), 120];
        const parts = ends
          .slice(1)
          .map((end, i) => partOf(partText(rehearsePart(both, { from: ends[i]!, count: end - ends[i]! }))));
        const turned = parts.map((_, i) => parts[(i + turn) % parts.length]!);
        const [first, ...rest] = turned;
        const grouped = rest.length < 2 ? turned : [first!, joinParts(rest)];
        expect(partText(joinParts(grouped))).toBe(partText(whole));
      }),
      { numRuns: 8 },
    );
  });

  test("make a report of the published schema, that loses no student and no take", () => {
    const report = rehearsalReport(whole, frame, terms);
    expect(checkRehearsal(JSON.parse(JSON.stringify(report)))).toMatchObject({ ok: true });
    const [all, ...quarters] = report.results.kinds;
    expect(quarters.reduce((sum, { students }) => sum + students, 0)).toBe(120);
    const outcomes = report.results.drills.flatMap(({ rungs }) =>
      rungs.flatMap(({ outcomes: of }) => Object.values(of)),
    );
    expect(outcomes.reduce((sum, count) => sum + count, 0)).toBe(all!.takesPlayed);
    expect(report.climbs.map(({ student }) => student)).toEqual(Array.from({ length: 100 }, (_, i) => i));
    for (const { weekly } of report.climbs) expect([...weekly].sort((a, b) => a - b)).toEqual(weekly);
  });
});

describe("differencesOf()", () => {
  test("who repeats the easiest rung for ever is clean more often, and loses on weeks, rungs and the end", () => {
    const found = Object.fromEntries(differencesOf(whole.paired[0]!).map((each) => [each.figure, each]));
    expect(found.rungs!.high).toBeLessThan(0);
    expect(found.days!.low).toBeGreaterThan(0);
    expect(found.finished!.second).toBe(0);
    const clean = (of: 0 | 1): number => {
      const outcomes = whole.courses[of]!.tallies.map(({ drills }) => drills[0]!.rungs[0]!.outcomes);
      const sum = (which: (o: readonly number[]) => number): number => outcomes.reduce((s, each) => s + which(each), 0);
      return sum((o) => o[0]!) / sum((o) => o.reduce((a, b) => a + b, 0));
    };
    expect(clean(1)).toBeGreaterThan(clean(0));
  });

  test("has mean and interval by student, as computed from the differences themselves", () => {
    const a = [3, 5, 9, 1];
    const b = [4, 5, 7, 6];
    const sums = (each: readonly number[]): number[] => FIGURES.map(() => each.reduce((s, v) => s + v, 0));
    const squares = (each: readonly number[]): number[] => sums(each.map((v) => v * v));
    const d = b.map((v, i) => v - a[i]!);
    const [days] = differencesOf({
      students: 4,
      first: sums(a),
      second: sums(b),
      squares: { first: squares(a), second: squares(b), difference: squares(d) },
    });
    // Differences 1, 0, -2, 5: mean 1, variance (0 + 1 + 9 + 16) / 3, half width 1.96 √(variance / 4).
    expect(days!.difference).toBe(1);
    expect(days!.high - 1).toBeCloseTo(1.959964 * Math.sqrt(26 / 3 / 4), 5);
    expect(1 - days!.low).toBeCloseTo(days!.high - 1, 12);
  });

  test("of one student or none has no bounds, so that nothing is decided", () => {
    const none = FIGURES.map(() => 0);
    const [days] = differencesOf({
      students: 1,
      first: none,
      second: none,
      squares: { first: none, second: none, difference: none },
    });
    expect([days!.low, days!.high]).toEqual([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
});
