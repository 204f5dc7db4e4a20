import { describe, expect, test } from "vitest";
import type { Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { driftsOf, plainScore, scatteredBy, takeOf } from "../take/scores.js";
import { near, printed } from "./published.js";

// L. T. Stevens 1886, "On the Time-Sense", Mind (old series) 11, 393-404: taps with a beat, then without it for a minute. Seconds, standard and
// reproduced, with the error in per cent of the standard as printed (read in page scans; every per cent computed again).
const CASES: Readonly<Record<string, readonly (readonly [standard: number, reproduced: number, percent: number])[]>> = {
  VI: [
    [1.48, 1.548, 4.6],
    [0.75, 0.836, 11.5],
    [0.744, 0.792, 6.5],
    [0.66, 0.655, -0.8],
    [0.59, 0.571, -3.2],
    [0.5, 0.489, -2.2],
    [0.36, 0.345, -4.2],
    [0.26, 0.253, -2.7],
  ],
  VII: [
    [1.458, 1.615, 10.8],
    [0.979, 0.992, 1.3],
    [0.73, 0.733, 0.4],
    [0.6, 0.588, -2.0],
    [0.472, 0.446, -5.5],
    [0.4, 0.354, -11.5],
  ],
};
const SILENT = 16;

/** Sixteen beats heard, sixteen alone, and the beat does not come back. */
const scoreFor = (standard: number): Score =>
  plainScore({ beat: standard, accompanied: 16, silent: SILENT, phrases: 1, outro: 0 });

const rows = Object.entries(CASES).flatMap(([name, each]) => each.map((row) => [name, ...row] as const));

describe("Stevens 1886: who goes on at the reproduced interval is found to drift by the printed per cent, with its sign", () => {
  test.each(rows)("case %s, %f s went on as %f s: %f per cent", (name, standard, reproduced, percent) => {
    const exact = 100 * (reproduced / standard - 1);
    near(exact, percent, printed(1));
    const score = scoreFor(standard);
    const { from } = score.dropouts[0]!;
    // Deviation of 2 % of the interval: what practised listeners tap with (Repp 2005, from memory).
    const slower = (at: number): number => (at <= from ? at : from + (at - from) * (reproduced / standard));
    for (const player of ["first", "second", "third"]) {
      const take = scatteredBy(takeOf(score, slower), 20 * standard, `Stevens ${name} ${standard} ${player}`);
      const finding = assess(score, take);
      expect(finding.missed).toEqual([]);
      const [drift] = driftsOf(finding);
      const error = (100 * drift!.standardErrorMs) / (1000 * standard * SILENT);
      // The finding's own standard error, four times: each of 42 takes passes 9,999 times in 10,000 if that error is right.
      near(drift!.driftPercent, exact, 4 * error + 1e-3);
      // And it is small enough to tell the sign of all but the smallest: 0.8 % is a third of 2.5 %.
      expect(error).toBeLessThan(0.8);
      if (Math.abs(percent) > 2.5) expect(Math.sign(drift!.driftPercent)).toBe(Math.sign(percent));
    }
  });
});
