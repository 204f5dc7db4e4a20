import { describe, expect, test } from "vitest";
import { luckOf, PURPOSES } from "../../../lib/rehearsal/students/luck.js";

const many = (at: (n: number) => number): readonly number[] => Array.from({ length: 20_000 }, (_, n) => at(n));
const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;
const correlation = (a: readonly number[], b: readonly number[]): number => {
  const [ma, mb] = [mean(a), mean(b)];
  const cross = mean(a.map((value, i) => (value - ma) * (b[i]! - mb)));
  return cross / Math.sqrt(mean(a.map((value) => (value - ma) ** 2)) * mean(b.map((value) => (value - mb) ** 2)));
};
/** Six standard errors of a correlation of 20,000 unrelated pairs: by chance in one case of 10^9. */
const UNRELATED = 6 / Math.sqrt(20_000);

describe("luck", () => {
  test("is found by its address: what else is asked, and in which order, changes nothing", () => {
    const one = luckOf("7", 3, "steady");
    const before = [one.uniform(0, PURPOSES.verdict), one.uniform(1, PURPOSES.verdict)];
    const other = luckOf("7", 3, "steady");
    other.uniform(500, PURPOSES.slip);
    other.normal(1, PURPOSES.form);
    expect([other.uniform(1, PURPOSES.verdict), other.uniform(0, PURPOSES.verdict)]).toEqual(before.toReversed());
  });

  test("is uniform: a hundred classes are as full as chance fills them", () => {
    const luck = luckOf("7", 3, "steady");
    for (const draw of [
      (n: number) => luck.uniform(n, PURPOSES.verdict),
      (n: number) => luckOf("7", n, "steady").uniform(0, PURPOSES.verdict),
    ]) {
      const classes = new Array<number>(100).fill(0);
      for (const value of many(draw)) classes[Math.floor(100 * value)]!++;
      const chiSquare = classes.reduce((sum, found) => sum + (found - 200) ** 2 / 200, 0);
      // Chi-square with 99 degrees of freedom: mean 99, SD 14.1; beyond 5 SDs by chance in fewer than one case of 10^5.
      expect(chiSquare).toBeGreaterThan(99 - 5 * 14.1);
      expect(chiSquare).toBeLessThan(99 + 5 * 14.1);
    }
  });

  test("of neighbouring takes, purposes, students and drills is unrelated", () => {
    const luck = luckOf("7", 3, "steady");
    const takes = many((n) => luck.uniform(n, PURPOSES.verdict));
    const neighbours = [
      many((n) => luck.uniform(n + 1, PURPOSES.verdict)),
      many((n) => luck.uniform(n, PURPOSES.slip)),
      many((n) => luckOf("7", 4, "steady").uniform(n, PURPOSES.verdict)),
      many((n) => luckOf("7", 3, "steadz").uniform(n, PURPOSES.verdict)),
    ];
    for (const neighbour of neighbours) expect(Math.abs(correlation(takes, neighbour))).toBeLessThan(UNRELATED);
  });

  test("is normal where it is asked to be: mean 0, variance 1, kurtosis 3", () => {
    const luck = luckOf("7", 3, "days");
    const values = many((n) => luck.normal(n, PURPOSES.form));
    // Standard errors of the three: 1, √2 and √24 over the root of the number of draws; five of them.
    expect(Math.abs(mean(values))).toBeLessThan(5 / Math.sqrt(20_000));
    expect(Math.abs(mean(values.map((z) => z ** 2)) - 1)).toBeLessThan((5 * Math.SQRT2) / Math.sqrt(20_000));
    expect(Math.abs(mean(values.map((z) => z ** 4)) - 3)).toBeLessThan((5 * Math.sqrt(96)) / Math.sqrt(20_000));
  });
});
