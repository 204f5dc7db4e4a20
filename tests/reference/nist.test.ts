import { describe, expect, test } from "vitest";
import { lineThrough, mean, standardDeviation } from "../../lib/take/metrics/statistics.js";
import { lagOneAutocorrelation } from "./autocorrelation.js";
import { near, published } from "./published.js";

// NIST Statistical Reference Datasets (US Government work), read in place; certified values from the headers of the files, computed again
// from the data to 50 digits.
const nist = published("nist", "the Statistical Reference Datasets of NIST");

/** The numbers of a file from the line after "Data:   Y" (or "y  x") on, one row a line. */
function rowsOf(set: string): number[][] {
  const lines = nist.read(`${set}.dat`).split("\n");
  const start = lines.findLastIndex((line) => /^Data:\s+y\b/i.test(line));
  return lines
    .slice(start + 1)
    .map((line) => line.trim())
    .filter((line) => /^-?[\d.]/.test(line))
    .map((line) => line.split(/\s+/).map(Number));
}

interface Certified {
  readonly set: string;
  readonly n: number;
  readonly mean: number;
  readonly sd: number;
  readonly lagOne: number;
}
const CERTIFIED: readonly Certified[] = [
  { set: "Lew", n: 200, mean: -177.435, sd: 277.332168044316, lagOne: -0.307304800605679 },
  { set: "Lottery", n: 218, mean: 518.95871559633, sd: 291.699727470969, lagOne: -0.120948622967393 },
  { set: "Mavro", n: 50, mean: 2.001856, sd: 0.000429123454003053, lagOne: 0.937989183438248 },
  { set: "Michelso", n: 100, mean: 299.8524, sd: 0.0790105478190518, lagOne: 0.535199668621283 },
  { set: "NumAcc1", n: 3, mean: 10000002, sd: 1, lagOne: -0.5 },
  { set: "NumAcc2", n: 1001, mean: 1.2, sd: 0.1, lagOne: -0.999 },
  { set: "NumAcc3", n: 1001, mean: 1000000.2, sd: 0.1, lagOne: -0.999 },
  { set: "NumAcc4", n: 1001, mean: 10000000.2, sd: 0.1, lagOne: -0.999 },
];

/**
 * What doubles allow. A value near `size` is stored to within size 2^-53, so deviations from the mean are off by at most twice that: relative to
 * the standard deviation e = 2 size 2^-53 / sd. The SD then is off by at most e of itself, the lag-1 ratio by at most 4 e (two factors above,
 * two below). Certified values carry 15 digits, and each of some hundred sums rounds a few times: 1e-14.
 */
function allowed({ mean: size, sd }: Certified): number {
  return (2 * Math.abs(size) * 2 ** -53) / sd + 1e-14;
}

describe.skipIf(!nist.there)("NIST StRD, univariate", () => {
  test.each(CERTIFIED)(
    "$set: mean, standard deviation and lag-1 autocorrelation to the digits doubles allow",
    (certified) => {
      const values = rowsOf(certified.set).map(([value]) => value!);
      expect(values.length).toBe(certified.n);
      const e = allowed(certified);
      near(mean(values), certified.mean, 1e-15 * Math.abs(certified.mean) + e * certified.sd);
      near(standardDeviation(values), certified.sd, e * certified.sd);
      const found = lagOneAutocorrelation(values);
      expect(typeof found).toBe("number");
      near(found as number, certified.lagOne, 4 * e);
    },
  );

  test("the plain one-pass formula would fail NumAcc4, so the check can fail", () => {
    const values = rowsOf("NumAcc4").map(([value]) => value!);
    const sum = values.reduce((total, value) => total + value, 0);
    const squares = values.reduce((total, value) => total + value ** 2, 0);
    const naive = Math.sqrt(Math.abs(squares - sum ** 2 / values.length) / (values.length - 1));
    expect(Math.abs(naive - 0.1)).toBeGreaterThan(100 * allowed(CERTIFIED.at(-1)!) * 0.1);
  });
});

describe.skipIf(!nist.there)("NIST StRD, linear regression", () => {
  test("Norris: intercept -0.262323073774029, slope 1.00211681802045, residual SD 0.884796396144373", () => {
    const rows = rowsOf("Norris");
    expect(rows.length).toBe(36);
    const y = rows.map((row) => row[0]!);
    const x = rows.map((row) => row[1]!);
    const line = lineThrough(x, y);
    // Values up to 1000 stored to 2^-53 of themselves against coefficients of 1 and 0.26: 13 and 12 digits, with room for 36 roundings.
    near(line.slope, 1.00211681802045, 1e-13);
    near(line.intercept, -0.262323073774029, 1e-12);
    const left = y.reduce((sum, value, i) => sum + (value - line.intercept - line.slope * x[i]!) ** 2, 0);
    near(Math.sqrt(left / 34), 0.884796396144373, 1e-12);
  });
});

test("NumAcc1 as a literal: 10000001, 10000003, 10000002 have mean 10000002, SD 1, lag-1 -1/2 exactly", () => {
  const values = [10000001, 10000003, 10000002];
  expect([mean(values), standardDeviation(values), lagOneAutocorrelation(values)]).toEqual([10000002, 1, -0.5]);
});
