import { describe, expect, test } from "vitest";
import {
  failure,
  nearestName,
  placedUnder,
  problemsIn,
  problemsOf,
  random,
  resultOf,
  success,
} from "../../lib/base/index.js";

const problem = problemsOf({
  TIDE_TOO_LOW: { severity: "error", means: "The tide is too low." },
  TIDE_TURNS: { severity: "advice", means: "The tide turns." },
});

describe("problems and results", () => {
  test("a problem takes its severity from the catalogue and has no remedy unless one is given", () => {
    expect(problem("TIDE_TURNS", "soon")).toEqual({
      code: "TIDE_TURNS",
      severity: "advice",
      message: "soon",
      where: {},
    });
    expect(problem("TIDE_TOO_LOW", "1 m", { offset: 3 }, "wait").remedy).toBe("wait");
  });

  test("placedUnder() puts pointers one behind the other and keeps the offset", () => {
    const inner = problem("TIDE_TOO_LOW", "1 m", { pointer: "/lead/notes", offset: 3 });
    expect(placedUnder(inner, "/patterns/riff/parts", "a.yaml").where).toEqual({
      file: "a.yaml",
      pointer: "/patterns/riff/parts/lead/notes",
      offset: 3,
    });
  });

  test("resultOf() succeeds with advice and fails with an error, keeping all problems", () => {
    const [error, advice] = [problem("TIDE_TOO_LOW", ""), problem("TIDE_TURNS", "")];
    expect(resultOf(1, [advice])).toEqual(success(1, [advice]));
    expect(resultOf(1, [advice, error])).toEqual(failure(advice, error));
    expect(problemsIn(resultOf(1, [advice, error]))).toHaveLength(2);
  });
});

describe("nearestName()", () => {
  test("finds a misspelling and keeps silent when nothing is near", () => {
    expect(nearestName("trupmet", ["trumpet", "trombone"])).toBe("trumpet");
    expect(nearestName("Trumpet", ["trumpet"])).toBe("trumpet");
    expect(nearestName("kazoo", ["trumpet", "trombone"])).toBeUndefined();
    expect(nearestName("x", [])).toBeUndefined();
  });
});

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
