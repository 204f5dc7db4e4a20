import { describe, expect, test } from "vitest";
import { fraction, seconds } from "../../lib/base/index.js";
import { parseTempo, synchronisationProblems } from "../../lib/time/index.js";
import { must, wantedProblem } from "./shorthand.js";

describe("parseTempo()", () => {
  test("takes numbers, decimals and a beat unit, exactly", () => {
    expect(must(parseTempo(96))).toEqual({ perMinute: fraction(96) });
    expect(must(parseTempo("92.5"))).toEqual({ perMinute: fraction(185, 2) });
    expect(must(parseTempo("60 of 3/8 note"))).toEqual({ perMinute: fraction(60), beat: fraction(3, 8) });
  });
  test.each([
    ["fast", "TEMPO_NOT_READ"],
    ["", "TEMPO_NOT_READ"],
    ["-60", "TEMPO_NOT_READ"],
    ["0", "TEMPO_OUT_OF_RANGE"],
    ["1001", "TEMPO_OUT_OF_RANGE"],
    ["60 of 5/8", "BEAT_UNIT_NOT_READ"],
    ["60 of 1/3", "BEAT_UNIT_NOT_READ"],
    ["60 of 0/4", "BEAT_UNIT_NOT_READ"],
    [Number.NaN, "TEMPO_NOT_READ"],
    [Number.POSITIVE_INFINITY, "TEMPO_NOT_READ"],
    [1e21, "TEMPO_NOT_READ"],
  ])("%s is refused as %s", (text, code) => wantedProblem(parseTempo(text), code));
});

describe("synchronisationProblems()", () => {
  test("is silent between the limits and advises beyond them", () => {
    const codes = (beat: number, shortest?: number) =>
      synchronisationProblems(seconds(beat), shortest === undefined ? undefined : seconds(shortest)).map((p) => p.code);
    expect(codes(1.8, 0.125)).toEqual([]);
    expect(codes(1.801)).toEqual(["BEAT_SLOWER_THAN_SYNCHRONISATION"]);
    expect(codes(0.5, 0.124)).toEqual(["SUBDIVISION_FASTER_THAN_SYNCHRONISATION"]);
    expect(codes(2, 0.1)).toHaveLength(2);
  });
});

test("a word that every object knows is no note value", () => {
  const read = parseTempo("60 of constructor");
  expect(read.ok ? [] : read.problems.map(({ remedy }) => remedy?.includes("function"))).toEqual([false]);
});
