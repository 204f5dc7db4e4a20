import { describe, expect, test } from "vitest";
import { newTallies, prepareRehearsal, rehearse, termsOf } from "../../lib/rehearsal/rehearse.js";
import type { Tally } from "../../lib/rehearsal/summary/tally.js";
import { sample } from "../samples.js";
import { shipped } from "./courses.js";

const ready = prepareRehearsal(shipped("first-course"), { drills: ["half-bar", "one-bar"], weeks: 4 });
const STUDENTS = sample({ suite: 40, proof: 500 });

describe("drawn and played", () => {
  test(`agree on rungs passed, takes and clean takes of the same ${STUDENTS} students, within the stated error`, () => {
    const drawn = [...termsOf(ready, { from: 0, count: STUDENTS })];
    const played = [...termsOf(ready, { from: 0, count: STUDENTS }, { played: true })];
    expect(played.map(({ student }) => student)).toEqual(drawn.map(({ student }) => student));
    const figures = {
      passed: (end: (typeof drawn)[number]) => end.passed,
      finished: (end: (typeof drawn)[number]) => (end.finished === undefined ? 0 : 1),
      clean: (end: (typeof drawn)[number]) => end.clean / Math.max(1, end.takes),
    };
    // What the table itself may be off (README of the room), beside the luck of these students.
    const tableError = { passed: 0.35, finished: 0.06, clean: 0.04 };
    for (const [name, of] of Object.entries(figures)) {
      const differences = drawn.map((end, i) => of(end) - of(played[i]!));
      const mean = differences.reduce((sum, each) => sum + each, 0) / STUDENTS;
      const variance = differences.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (STUDENTS - 1);
      const allowed = tableError[name as keyof typeof tableError] + 3 * Math.sqrt(variance / STUDENTS);
      expect(Math.abs(mean), `${name}: ${mean}, allowed ${allowed}`).toBeLessThan(allowed);
    }
  });
});

describe("a rehearsal", () => {
  test("is the same in parts and in one, in any order", () => {
    const whole = rehearse(ready, { from: 0, count: 90 });
    const into = newTallies(ready.course);
    for (const from of [60, 0, 30]) for (const _ of termsOf(ready, { from, count: 30 }, { tallies: into }));
    expect(text(into)).toBe(text(whole));
  });

  test("gives a student the same term whoever else takes part", () => {
    const alone = [...termsOf(ready, { from: 17, count: 1 })][0];
    expect([...termsOf(ready, { from: 0, count: 20 })][17]).toEqual(alone);
  });

  test("loses no student and no take", () => {
    const tallies = rehearse(ready, { from: 0, count: 300 });
    expect(tallies.reduce((sum, { students }) => sum + students, 0)).toBe(300);
    for (const { takes, drills } of tallies) {
      const counted = drills.flatMap(({ rungs }) => rungs.flatMap(({ outcomes }) => outcomes));
      expect(counted.reduce((sum, each) => sum + each, 0)).toBe(takes);
    }
  });
});

/** Counts in order of their values. */
function text(tallies: readonly Tally[]): string {
  return JSON.stringify(tallies, (_, value) => (value instanceof Map ? [...value].sort(([a], [b]) => a - b) : value));
}
