import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { checkEvent, checkFinding, checkReport, checkStanding, checkTake } from "../../lib/schema/index.js";

/** `CODE pointer` of every problem. */
function told(result: ReturnType<typeof checkTake> | ReturnType<typeof checkFinding>): readonly string[] {
  return problemsIn(result).map((problem) => `${problem.code} ${problem.where.pointer}`);
}

describe("checkTake()", () => {
  test("fills in the defaults the schema states", () => {
    const result = checkTake({ onsets: [0.5, { at: 1, pitch: "D4" }] });
    expect(result).toEqual({
      ok: true,
      value: { onsets: [0.5, { at: 1, pitch: "D4" }], version: 1, zero: "count-in", latencyStandardErrorMs: 3 },
      advice: [],
    });
  });

  test("does not change what it is given", () => {
    const given = Object.freeze({ onsets: Object.freeze([0.5]) });
    checkTake(given);
    expect(given).toEqual({ onsets: [0.5] });
  });

  test("tells all problems at once, each with its place", () => {
    const result = checkTake({ onset: [], zero: "count in", latencyMs: 5000, played: "yesterday", student: 7 });
    expect([...told(result)].sort()).toEqual([
      "MISSING_KEY ",
      "NOT_ONE_OF /zero",
      "NUMBER_OUT_OF_RANGE /latencyMs",
      "TEXT_FORM /played",
      "UNKNOWN_KEY /onset",
      "WRONG_TYPE /student",
    ]);
    expect(problemsIn(result).map((problem) => problem.remedy)).toContain("write onsets");
    expect(problemsIn(result).map((problem) => problem.remedy)).toContain("write count-in");
  });

  test("says one thing about a value that fits no form", () => {
    expect(told(checkTake({ onsets: ["soon"] }))).toEqual(["WRONG_TYPE /onsets/0"]);
    expect(told(checkTake({ onsets: [{ at: 1, pitch: true }] }))).toEqual(["WRONG_TYPE /onsets/0/pitch"]);
    expect(told(checkTake({ onsets: [{ at: 1, pitch: "H4" }] }))).toEqual(["TEXT_FORM /onsets/0/pitch"]);
    expect(told(checkTake({ onsets: [{ at: 1, ptch: "D4" }] }))).toEqual(["UNKNOWN_KEY /onsets/0/ptch"]);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number("1e400")])("refuses %s as a time", (at) => {
    expect(told(checkTake({ onsets: [at] }))).toEqual(["WRONG_TYPE /onsets/0"]);
  });

  test("refuses what is not data", () => {
    const round: Record<string, unknown> = {};
    round.self = round;
    expect(told(checkTake(round))).toEqual([`TOO_DEEP ${"/self".repeat(64)}`]);
    expect(told(checkTake({ onsets: [() => 1] }))).toEqual(["NOT_DATA /onsets/0"]);
    expect(told(checkTake({ onsets: new Date(0) }))).toEqual(["NOT_DATA /onsets"]);
    expect(told(checkTake(undefined))).toEqual(["NOT_DATA "]);
  });

  test("keeps a key named __proto__ an ordinary, unknown key", () => {
    expect(told(checkTake(JSON.parse('{"onsets": [], "__proto__": {"polluted": true}}')))).toEqual([
      "UNKNOWN_KEY /__proto__",
    ]);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test("lists no more than 500 problems, and says that there are more", () => {
    const problems = problemsIn(checkTake({ onsets: Array.from({ length: 2000 }, () => "x") }));
    expect(problems).toHaveLength(501);
    expect(problems.at(-1)?.code).toBe("MORE_PROBLEMS");
  });
});

describe("a document of another version", () => {
  test("is answered by that alone, whatever else it holds, with what to do", () => {
    const problems = problemsIn(checkTake({ version: 2, beats: [] }));
    expect(problems).toEqual([
      expect.objectContaining({
        code: "FORMAT_VERSION_UNKNOWN",
        remedy: "use a newer leeway",
        where: { pointer: "/version" },
      }),
    ]);
  });

  test.each([
    [checkStanding, { version: 1, drills: [{ by: "nobody" }] }],
    [checkReport, { version: 1, at: "2026-03-02T17:30:00Z" }],
    [checkEvent, { version: 1, kind: "take assessed" }],
  ])("is answered by that alone when it is a former one that is not read: %o", (check, document) => {
    expect(problemsIn(check(document))).toEqual([
      expect.objectContaining({
        code: "FORMAT_VERSION_FORMER",
        message: "the version of the document's format must be 2, found 1",
        remedy: "make it anew from its journal; journals of former versions are read",
        where: { pointer: "/version" },
      }),
    ]);
  });

  test.each([0, 1.5, "2", null, [2]])("is none when its version is %j", (version) => {
    expect(told(checkTake({ version, onsets: [] }))).toEqual(["NOT_ONE_OF /version"]);
  });
});

describe("checkFinding()", () => {
  const finding = {
    version: 1,
    verdict: "within",
    probability: 0.97,
    reasons: [],
    pairs: [[0, 0]],
    missed: [],
    added: [],
    offsetMs: { unmeasured: "nothing was played while accompanied" },
    dropouts: [],
    openBars: [],
    steadiness: { accompaniedMs: 12, aloneMs: 15, clockMs: 5, motorMs: 8, verdict: "within", probability: 1 },
    sentence: "In time.",
  };

  test("takes a measured value or the reason for its absence, and nothing between", () => {
    expect(checkFinding(finding).ok).toBe(true);
    expect(told(checkFinding({ ...finding, offsetMs: null }))).toEqual(["WRONG_TYPE /offsetMs"]);
    expect([...told(checkFinding({ ...finding, offsetMs: { unmeasurd: "x" } }))].sort()).toEqual([
      "MISSING_KEY /offsetMs",
      "UNKNOWN_KEY /offsetMs/unmeasurd",
    ]);
  });

  test("takes pairs of two indices", () => {
    expect(told(checkFinding({ ...finding, pairs: [[0]] }))).toEqual(["TOO_FEW /pairs/0"]);
    expect(told(checkFinding({ ...finding, pairs: [[0, 1, 2]] }))).toContain("TOO_MANY /pairs/0");
  });
});
