import { describe, expect, test } from "vitest";
import { luckOf } from "../../../lib/rehearsal/students/luck.js";
import { BUILT_IN_STUDENTS, studentsOf } from "../../../lib/rehearsal/students/population.js";
import { type Student, studentBy } from "../../../lib/rehearsal/students/student.js";
import { checkPopulation } from "../../../lib/schema/index.js";

const drawn = (students = BUILT_IN_STUDENTS): readonly Student[] =>
  Array.from({ length: 4000 }, (_, number) => studentBy(students, luckOf("9", number, "traits")));

describe("a population", () => {
  test("is distributed as it says: two thirds between median / ratio and median × ratio, a quarter in each quarter", () => {
    const students = drawn();
    const within = students.filter(({ motor }) => motor >= 12 / 1.4 && motor <= 12 * 1.4).length / 4000;
    // Chance that a normal lies within one standard deviation: .6827; five standard errors.
    expect(Math.abs(within - 0.6827)).toBeLessThan(5 * Math.sqrt((0.6827 * 0.3173) / 4000));
    for (const quarter of [0, 1, 2, 3])
      expect(Math.abs(students.filter((each) => each.quarter === quarter).length - 1000)).toBeLessThan(
        5 * Math.sqrt(4000 * 0.25 * 0.75),
      );
  });

  test("that states one trait leaves all others of every student as they were", () => {
    const stated = checkPopulation({ population: "steady hands", traits: { motor: { median: 8, ratio: 1 } } });
    if (!stated.ok) throw new RangeError("a population that is none");
    const changed = drawn(studentsOf(stated.value));
    expect(changed.every(({ motor }) => motor === 8)).toBe(true);
    const rest = ({ motor: _, ...others }: Student): Omit<Student, "motor"> => others;
    expect(changed.map(rest)).toEqual(drawn().map(rest));
  });

  test("whose ratio is below 1 is refused at its place", () => {
    const refused = checkPopulation({ population: "none", traits: { motor: { median: 8, ratio: 0.5 } } });
    expect(refused.ok).toBe(false);
    if (!refused.ok) expect(refused.problems.map(({ where }) => where.pointer)).toContain("/traits/motor/ratio");
  });
});
