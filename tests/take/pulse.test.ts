import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { pulseTest } from "../../lib/take/metrics/pulse.js";
import { vTest } from "../reference/circularStatistics.js";

const even = (places: number, length: number): number[] =>
  Array.from({ length: places + 1 }, (_, place) => (place * length) / places);
const swung = [0, 2 / 3, 1, 5 / 3, 2, 8 / 3, 3, 11 / 3, 4];

describe("pulseTest()", () => {
  test.each([-4, -1, 0, 1, 4])(
    "finds the tempo of onsets that lie on the grid but for %f per cent, to the step it looks in",
    (percent) => {
      const grid = even(16, 4).map((at) => 10 + at);
      const onsets = [0, 2, 3, 6, 7, 9, 10, 12, 14, 15].map((place) => 10 + (place / 4) * (1 + percent / 100));
      const found = pulseTest(onsets, grid);
      // Four tries to the width of a peak, which is one place in sixteen.
      expect(Math.abs(found.percent - percent)).toBeLessThanOrEqual(100 / 16 / 4 / 2 + 1e-9);
      expect(found.p).toBeLessThan(0.01);
    },
  );

  test("takes a swung grid as it is: notes on it agree, notes on the even one do not", () => {
    const on = [0, 1, 2, 3, 5, 6, 7].map((place) => swung[place]!);
    // The tempi tried are 100 / 8 / 4 per cent apart, so one is at most half of that off: the phase of the k-th place by 2 pi k times as much, and the
    // mean cosine of phases is 1 less half their mean square, at least.
    const phases = [0, 1, 2, 3, 5, 6, 7].map((place) => 2 * Math.PI * place * (1 / 8 / 4 / 2));
    const least = 1 - phases.reduce((sum, phase) => sum + phase ** 2, 0) / phases.length / 2;
    expect(pulseTest(on, swung).agreement).toBeGreaterThan(least);
    const straight = [0.5, 1.5, 2.5, 3.5, 0.5, 1.5, 2.5].map((at) => at + 1e-9);
    expect(pulseTest(straight, swung).agreement).toBeLessThan(0.9);
  });

  test("at the written tempo is the V test of the phases on the grid, direction 0", () => {
    const grid = even(8, 4);
    const chance = random("v test");
    const onsets = Array.from({ length: 9 }, () => 0.5 * chance.below(8) + 0.04 * chance.normal());
    const { percent, agreement, p } = pulseTest(onsets, grid);
    // The best of the tempi tried is at least as good as the written one, and exactly as good when that is the best.
    const angles = onsets.map((at) => 2 * Math.PI * (at / (1 + percent / 100) / 0.5));
    expect(Math.sqrt(2 * onsets.length) * agreement).toBeCloseTo(vTest(angles, 0).statistic, 9);
    expect(Math.sqrt(2 * onsets.length) * agreement).toBeGreaterThanOrEqual(
      vTest(
        onsets.map((at) => (2 * Math.PI * at) / 0.5),
        0,
      ).statistic - 1e-9,
    );
    // 1 - Phi(u) + range of tempo x places / sqrt(3) x exp(-u^2 / 2), with Phi by Simpson's rule.
    const u = Math.sqrt(2 * onsets.length) * agreement;
    const steps = 2000;
    const density = (z: number): number => Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI);
    let tail = 0;
    for (let k = 0; k <= steps; k++)
      tail += (k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2) * density(u + (k * 12) / steps) * (12 / steps / 3);
    expect(Math.abs(p - Math.min(1, tail + ((0.12 * 8) / Math.sqrt(3)) * Math.exp(-(u ** 2) / 2)))).toBeLessThan(2e-7);
  });

  test.each([
    ["sixteenths", even(16, 2)],
    ["eighths", even(8, 2)],
    ["swung eighths", swung.map((beats) => beats / 2)],
  ] as const)(
    "%s: a pulse is claimed at p up to 0.05 on at most one in twenty of random onsets, up to the error of the count",
    (_, grid) => {
      const runs = 3000;
      let claimed = 0;
      for (let run = 0; run < runs; run++) {
        const chance = random(`random ${run}`);
        const onsets = Array.from({ length: 5 + chance.below(8) }, () => 2 * chance.uniform());
        if (pulseTest(onsets, grid).p <= 0.05) claimed++;
      }
      expect(claimed).toBeLessThanOrEqual(0.05 * runs + 3 * Math.sqrt(0.05 * 0.95 * runs));
      // Rice's formula is an upper bound, but not an idle one.
      expect(claimed).toBeGreaterThan(0.005 * runs);
    },
  );

  test("finds the pulse of most players as steady as a novice, in 6 to 12 notes", () => {
    const runs = 500;
    let found = 0;
    for (let run = 0; run < runs; run++) {
      const chance = random(`novice ${run}`);
      const tempo = 1 + 0.02 * chance.normal();
      const onsets = Array.from(
        { length: 6 + chance.below(7) },
        () => tempo * 0.25 * chance.below(8) + 0.022 * chance.normal(),
      );
      if (pulseTest(onsets, even(8, 2)).p <= 0.05) found++;
    }
    expect(found).toBeGreaterThan(0.9 * runs);
  });
});
