import { expect, test } from "vitest";
import { wilson } from "../../bench/landing/wilson.js";
import { choleskyOf, solveWith } from "./cholesky.js";

// Newcombe 1998, Statistics in Medicine 17, 857-872, table I, score method without continuity correction (from memory).
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])("wilson(%i of %i) is the published interval", (count, of, low, high) => {
  const share = wilson(count, of);
  expect(Math.abs(share.low - low)).toBeLessThanOrEqual(0.5e-4);
  expect(Math.abs(share.high - high)).toBeLessThanOrEqual(0.5e-4);
});

test("solveWith() solves what choleskyOf() took apart: a matrix of whole numbers, by hand", () => {
  // (4 2 0; 2 5 3; 0 3 6) (1, -2, 3) = (0, 1, 12)
  const lower = choleskyOf(Float64Array.from([4, 0, 0, 2, 5, 0, 0, 3, 6]), 3);
  expect([...solveWith(lower, Float64Array.from([0, 1, 12]))].map((x) => Math.round(1e9 * x) / 1e9)).toEqual([
    1, -2, 3,
  ]);
  expect(() => choleskyOf(Float64Array.from([1, 0, 2, 1]), 2)).toThrow(RangeError);
});
