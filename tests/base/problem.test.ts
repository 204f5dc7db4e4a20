import { describe, expect, test } from "vitest";
import { failure, nearestName, placedUnder, problemsIn, problemsOf, resultOf, success } from "../../lib/base/index.js";

const catalogue = {
  TIDE_TOO_LOW: "error",
  TIDE_TURNS: "advice",
} as const;
const problem = problemsOf(catalogue);
const says = (sentence: string) => ({ says: sentence, message: { key: "tide.said", parameters: { sentence } } });

describe("problems and results", () => {
  test("a problem takes its severity from the catalogue and has no remedy unless one is given", () => {
    expect(problem("TIDE_TURNS", says("soon"))).toEqual({
      code: "TIDE_TURNS",
      severity: "advice",
      message: "soon",
      where: {},
      words: { message: says("soon").message },
    });
    expect(problem("TIDE_TOO_LOW", says("1 m"), { offset: 3 }, says("wait"))).toMatchObject({
      remedy: "wait",
      words: { message: says("1 m").message, remedy: says("wait").message },
    });
  });

  test("placedUnder() puts pointers one behind the other and keeps the offset", () => {
    const inner = problem("TIDE_TOO_LOW", says("1 m"), { pointer: "/lead/notes", offset: 3 });
    expect(placedUnder(inner, "/patterns/riff/parts", "a.yaml").where).toEqual({
      file: "a.yaml",
      pointer: "/patterns/riff/parts/lead/notes",
      offset: 3,
    });
  });

  test("resultOf() succeeds with advice and fails with an error, keeping all problems", () => {
    const [error, advice] = [problem("TIDE_TOO_LOW", says("")), problem("TIDE_TURNS", says(""))];
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
