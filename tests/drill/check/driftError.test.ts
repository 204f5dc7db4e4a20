import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { milliseconds } from "../../../lib/base/index.js";
import { driftError } from "../../../lib/drill/index.js";

/**
 * The same error by conditioning one joint normal law at once: phase at the start, phase at each onset and phase at the end, given the
 * scattered onsets. Independent of the filter: covariances min(s, t), Gaussian elimination.
 */
function byConditioning(onsets: readonly number[], beats: number, noise: { clock: number; motor: number }): number {
  const [walk, motor] = [noise.clock ** 2, noise.motor ** 2];
  const before = (walk + Math.sqrt(walk ** 2 + 4 * walk * motor)) / 2;
  const known = (before * motor) / (before + motor);
  const covariance = (s: number, t: number): number => known + walk * Math.min(s, t);
  // Wanted: phase(end) - phase(start).
  const withEach = onsets.map((t) => covariance(beats, t) - covariance(0, t));
  const matrix = onsets.map((s, i) => [
    ...onsets.map((t, j) => covariance(s, t) + (i === j ? motor : 0)),
    withEach[i]!,
  ]);
  for (let i = 0; i < onsets.length; i++) {
    for (let j = i + 1; j < onsets.length; j++) {
      const factor = matrix[j]![i]! / matrix[i]![i]!;
      matrix[j] = matrix[j]!.map((value, k) => value - factor * matrix[i]![k]!);
    }
  }
  const weights = new Array<number>(onsets.length).fill(0);
  for (let i = onsets.length - 1; i >= 0; i--) {
    const rest = weights.reduce((sum, weight, k) => (k > i ? sum + weight * matrix[i]![k]! : sum), 0);
    weights[i] = (matrix[i]![onsets.length]! - rest) / matrix[i]![i]!;
  }
  const explained = weights.reduce((sum, weight, i) => sum + weight * withEach[i]!, 0);
  return Math.sqrt(walk * beats - explained);
}

const silence = fc
  .record({
    beats: fc.integer({ min: 1, max: 32 }),
    shares: fc.array(fc.integer({ min: 0, max: 16 }), { maxLength: 12 }),
    clock: fc.double({ min: 0.5, max: 30, noNaN: true }),
    motor: fc.double({ min: 0.5, max: 30, noNaN: true }),
  })
  .map(({ beats, shares, clock, motor }) => ({
    beats,
    onsets: shares.sort((a, b) => a - b).map((share) => (share / 16) * beats),
    noise: { clock: milliseconds(clock), motor: milliseconds(motor) },
  }));

describe("driftError()", () => {
  test("is the deviation of the clock alone where nothing is played", () => {
    expect(driftError({ onsets: [], beats: 4 })).toBeCloseTo(10, 12);
  });

  test("agrees with conditioning the joint normal law at once", () => {
    fc.assert(
      fc.property(silence, ({ beats, onsets, noise }) => {
        const expected = byConditioning(onsets, beats, noise);
        expect(Math.abs(driftError({ onsets, beats, noise }) - expected)).toBeLessThan(1e-6 * (1 + expected));
      }),
    );
  });

  test("never grows when a note is added", () => {
    fc.assert(
      fc.property(silence, fc.integer({ min: 0, max: 16 }), ({ beats, onsets, noise }, share) => {
        const more = [...onsets, (share / 16) * beats].sort((a, b) => a - b);
        expect(driftError({ onsets: more, beats, noise })).toBeLessThanOrEqual(
          driftError({ onsets, beats, noise }) + 1e-9,
        );
      }),
    );
  });

  test("refuses onsets out of order or outside the silence", () => {
    for (const onsets of [[2, 1], [-1], [5]]) expect(() => driftError({ onsets, beats: 4 })).toThrow(RangeError);
  });
});
