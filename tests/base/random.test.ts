import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { fnv1a64, splitMix64 } from "../../lib/base/random.js";

describe("random()", () => {
  test("the same seed gives the same stream, another seed another", () => {
    const draw = (seed: number | string): number[] => {
      const stream = random(seed);
      return Array.from({ length: 20 }, () => stream.uniform());
    };
    expect(draw("7/phrase 2")).toEqual(draw("7/phrase 2"));
    expect(draw("7/phrase 2")).not.toEqual(draw("7/phrase 3"));
    expect(draw(7)).toEqual(draw("7"));
  });

  test("below() stays below and reaches every number; normal() has mean 0 and standard deviation 1", () => {
    const stream = random(1);
    const drawn = new Set(Array.from({ length: 1000 }, () => stream.below(6)));
    expect([...drawn].sort()).toEqual([0, 1, 2, 3, 4, 5]);
    const n = 40_000;
    const values = Array.from({ length: n }, () => stream.normal());
    const mean = values.reduce((a, b) => a + b, 0) / n;
    const variance = values.reduce((a, b) => a + (b - mean) ** 2, 0) / n;
    // Five standard errors: 1/sqrt(n) of the mean, sqrt(2/n) of the variance.
    expect(Math.abs(mean)).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(variance - 1)).toBeLessThan(5 * Math.sqrt(2 / n));
  });
});

/** Seeds that differ in one character, in the order of that character: all printable ones of ASCII, at one place of a text. */
const FAMILIES: readonly (readonly string[])[] = [
  "take",
  "player",
  "7/phrase",
  "a term",
  "strike/snare",
  "7",
  "",
].flatMap((name) =>
  [`${name}/@`, `${name} 1@`, `${name}/@/outlook`, `@${name}`, `${name}@0`, `${"x".repeat(40)}${name}@`].map((text) =>
    Array.from({ length: 95 }, (_, i) => text.replace("@", () => String.fromCharCode(32 + i))),
  ),
);

/** The first numbers of a stream. */
function begin(seed: string): readonly [number, number] {
  const stream = random(seed);
  return [stream.uniform(), stream.uniform()];
}

/** Kolmogorov's statistic against the uniform distribution on [0, 1), times the root of the number of values. */
function kolmogorov(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const n = sorted.length;
  const far = sorted.map((value, i) => Math.max((i + 1) / n - value, value - i / n));
  return Math.sqrt(n) * Math.max(...far);
}

/** What Kolmogorov's statistic exceeds with at most this chance when the values are uniform (Massart 1990: 2 exp(-2 x^2)). */
function criticalAt(level: number): number {
  return Math.sqrt(-Math.log(level / 2) / 2);
}

function correlation(pairs: readonly (readonly [number, number])[]): number {
  const mean = (of: (pair: readonly [number, number]) => number): number =>
    pairs.reduce((sum, pair) => sum + of(pair), 0) / pairs.length;
  const [a, b] = [mean(([x]) => x), mean(([, y]) => y)];
  const [va, vb] = [mean(([x]) => (x - a) ** 2), mean(([, y]) => (y - b) ** 2)];
  return mean(([x, y]) => (x - a) * (y - b)) / Math.sqrt(va * vb);
}

describe("streams of seeds that differ in one character", () => {
  // All tests together are wrong once in a thousand sets of seeds (Bonferroni); the seeds are fixed, so that these come out the same always.
  const LEVEL = 1e-3 / (2 * FAMILIES.length);

  test.each(["first", "second"] as const)(
    "have %s numbers that are uniform, family by family and all together",
    (which) => {
      const draws = FAMILIES.map((family) => family.map((seed) => begin(seed)[which === "first" ? 0 : 1]));
      for (const [i, values] of draws.entries())
        expect(kolmogorov(values), FAMILIES[i]![0]).toBeLessThan(criticalAt(LEVEL));
      expect(kolmogorov(draws.flat())).toBeLessThan(criticalAt(1e-3));
    },
  );

  test("have first numbers that do not go with those of the neighbour, nor with their own second ones", () => {
    const neighbours = FAMILIES.flatMap((family) =>
      family.slice(1).map((seed, i) => [begin(family[i]!)[0], begin(seed)[0]] as const),
    );
    const own = FAMILIES.flatMap((family) => family.map(begin));
    // Without correlation its standard error is 1 / sqrt(n); four of them are exceeded once in 16 000.
    for (const pairs of [neighbours, own])
      expect(Math.abs(correlation(pairs))).toBeLessThan(4 / Math.sqrt(pairs.length));
  });

  test("have as many first numbers as seeds: take/0 to take/9 once had a handful", () => {
    const first = Array.from({ length: 10 }, (_, i) => begin(`take/${i}`)[0]);
    expect(new Set(first.map((value) => value.toFixed(4))).size).toBe(10);
  });
});

describe("fnv1a64()", () => {
  // draft-eastlake-fnv, test vectors of the 64-bit FNV-1a (as quoted in the tests of other libraries).
  test.each([
    ["", 0xcbf29ce484222325n],
    ["a", 0xaf63dc4c8601ec8cn],
    ["foobar", 0x85944171f73967e8n],
  ])("of %j is as published", (text, hash) => expect(fnv1a64(text)).toBe(hash));
});

describe("splitMix64()", () => {
  // First outputs of Vigna's splitmix64.c for seed 1234567, as Rosetta Code and the tests of many libraries give them.
  test("gives the numbers of the reference program", () => {
    expect(splitMix64(1234567n)).toEqual([6457827717110365317n, 3203168211198807973n]);
  });
});
