import { sampleCorrelation } from "simple-statistics";
import { expect, test } from "vitest";
import { luckOf, normals, uniforms } from "./luck.js";

test("a stream does not depend on what else was drawn", () => {
  const [one, two] = [luckOf("tern", 1), luckOf("tern", 1)];
  two("timing").normal();
  two("habits").uniform();
  expect(uniforms(one, "timing", 5)).toEqual(uniforms(two, "timing", 5));
});

test("first numbers of neighbouring takes lie evenly: one in each tenth as often as chance has it", () => {
  const firsts = Array.from({ length: 5000 }, (_, take) => luckOf("tern", take)("timing").uniform());
  const counts = Array.from(
    { length: 10 },
    (_, tenth) => firsts.filter((first) => Math.floor(10 * first) === tenth).length,
  );
  const chiSquared = counts.reduce((sum, count) => sum + (count - 500) ** 2 / 500, 0);
  // 27.9 is exceeded once in a thousand by chi squared with 9 degrees of freedom (tables).
  expect(chiSquared).toBeLessThan(27.9);
});

test("streams of one take and of neighbouring takes are uncorrelated", () => {
  const stream = (take: number, purpose: string): number[] => [...normals(luckOf("tern", take), purpose, 2000)];
  for (const [a, b] of [
    [stream(1, "hand"), stream(1, "clock")],
    [stream(1, "hand"), stream(2, "hand")],
  ] as const)
    expect(Math.abs(sampleCorrelation(a, b))).toBeLessThan(4 / Math.sqrt(2000));
});
