import fc from "fast-check";
import { expect, test } from "vitest";
import { solveToeplitz } from "../../../lib/listen/backing/levinson.js";

test("solveToeplitz() gives what multiplied by the matrix is the right side again", () => {
  const samples = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 40 });
  fc.assert(
    fc.property(samples, samples, (signal, wanted) => {
      // The autocorrelation of a signal is positive definite; a little is added so that it is far from singular.
      const row = Float64Array.from(wanted, (_, lag) =>
        signal.reduce((sum, value, i) => sum + value * (signal[i + lag] ?? 0), lag === 0 ? 0.1 : 0),
      );
      const x = solveToeplitz(row, Float64Array.from(wanted));
      // Condition at most (40 * 40 + 0.1) / 0.1, so rounding (1e-16) grows by less than 1e5, and is summed over 40 terms of size up to 1e3.
      wanted.forEach((right, i) => {
        const left = wanted.reduce((sum, _, j) => sum + row[Math.abs(i - j)]! * x[j]!, 0);
        expect(Math.abs(left - right)).toBeLessThan(1e-6);
      });
    }),
  );
});

test("solveToeplitz() gives zeros for a matrix of zeros", () => {
  expect([...solveToeplitz(new Float64Array(3), new Float64Array([1, 2, 3]))]).toEqual([0, 0, 0]);
});
