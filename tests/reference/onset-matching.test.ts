import { describe, expect, test } from "vitest";
import { hitRates, matchHits } from "./hitRates.js";
import { published } from "./published.js";

// Annotated and detected times with the scores they should get: mir_eval (MIT) at 1fed5327, read in place. Hits counted again with an
// independent maximum bipartite matcher.
const fixtures = published("mir_eval", "the onset and beat fixtures of mir_eval");

function timesIn(file: string): number[] {
  return fixtures
    .read(file)
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "" && !line.startsWith("#"))
    .map((line) => Number(line.split(/\s+/)[0]));
}

interface Scores {
  readonly "F-measure": number;
  readonly Precision: number;
  readonly Recall: number;
}

describe.skipIf(!fixtures.there)("mir_eval onset fixtures, window 0.05 s", () => {
  test.each([
    ["00", 22, 27, 13],
    ["01", 58, 3, 1],
    ["02", 55, 36, 8],
    ["03", 15, 25, 10],
    ["04", 1, 45, 0],
    ["05", 4, 5, 1],
  ])("set %s: of %i and %i times %i are hits, with exactly the published rates", (set, references, estimates, hits) => {
    const reference = timesIn(`onset_ref${set}.txt`);
    const estimated = timesIn(`onset_est${set}.txt`);
    const scores: Scores = JSON.parse(fixtures.read(`onset_output${set}.json`));
    expect([reference.length, estimated.length]).toEqual([references, estimates]);
    const found = matchHits(reference, estimated, 0.05).length;
    expect(found).toBe(hits);
    const rates = hitRates(found, { reference: references, estimated: estimates });
    expect(rates.precision).toBe(scores.Precision);
    expect(rates.recall).toBe(scores.Recall);
    expect(rates.f).toBe(scores["F-measure"]);
  });
});

describe.skipIf(!fixtures.there)("mir_eval beat fixtures, window 0.07 s, beats before 5 s dropped", () => {
  test.each([
    ["00", 322],
    ["01", 358],
    ["02", 339],
    ["03", 55],
    ["04", 320],
    ["05", 63],
  ])("set %s: %i beats are hits, with exactly the published F", (set, hits) => {
    const late = (time: number): boolean => time >= 5;
    const reference = timesIn(`beat_ref${set}.txt`).filter(late);
    const estimated = timesIn(`beat_est${set}.txt`).filter(late);
    const scores: Scores = JSON.parse(fixtures.read(`beat_output${set}.json`));
    const found = matchHits(reference, estimated, 0.07).length;
    expect(found).toBe(hits);
    expect(hitRates(found, { reference: reference.length, estimated: estimated.length }).f).toBe(scores["F-measure"]);
  });
});

// The same rates as literals, so that the arithmetic is checked where the files are not.
test.each([
  [13, 22, 27, 0.48148148148148145, 0.5909090909090909, 0.5306122448979591],
  [1, 58, 3, 0.3333333333333333, 0.017241379310344827, 0.03278688524590164],
  [8, 55, 36, 0.2222222222222222, 0.14545454545454545, 0.17582417582417584],
  [10, 15, 25, 0.4, 0.6666666666666666, 0.5],
  [0, 1, 45, 0, 0, 0],
  [1, 4, 5, 0.2, 0.25, 0.22222222222222224],
])(
  "hitRates() of %i hits among %i and %i times are those of mir_eval",
  (hits, reference, estimated, precision, recall, f) => {
    expect(hitRates(hits, { reference, estimated })).toEqual({ precision, recall, f });
  },
);
