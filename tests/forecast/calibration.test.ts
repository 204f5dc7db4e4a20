import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { calibrated, drawCalibration, priorCalibration, recalibrated } from "../../lib/forecast/calibration.js";
import type { Demand } from "../../lib/forecast/demand.js";
import { DEFAULT_POPULATION, forecast } from "../../lib/plan/index.js";
import { type Failing, follow, LONGEST } from "./apart.js";

const MEAN = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;
const SEEDS = ["tern", "gull"];

describe("a player who fails in the longest silence alone", () => {
  test.each<Failing>(["lost", "hesitates", "lands wrong"])(
    "%s: is believed to after a few takes, and the shorter ones stay what they are",
    (failing) => {
      const followed = SEEDS.map((seed) => follow(seed, failing, { fails: 6, cleans: 0 }));
      const believed = (takes: number): number => MEAN(followed.map(({ longest }) => longest[takes]!));
      expect(believed(0)).toBeGreaterThan(0.6);
      // Laplace's rule for three failures out of three, with nothing else known, says 1 in 5. Who was clean at half the length is given up no sooner, and not much later.
      expect(believed(3)).toBeLessThan(0.45);
      expect(believed(3)).toBeGreaterThan(0.1);
      expect(believed(6)).toBeLessThan(0.25);
      expect(MEAN(followed.map(({ brierShorter }) => brierShorter))).toBeLessThan(0.06);
    },
  );

  test("is believed again when it goes well", () => {
    const followed = SEEDS.map((seed) => follow(seed, "lost", { fails: 6, cleans: 8 }));
    expect(MEAN(followed.map(({ longest }) => longest[6]!))).toBeLessThan(0.25);
    expect(MEAN(followed.map(({ longest }) => longest[14]!))).toBeGreaterThan(0.55);
  });
});

const demandOfLength = (beats: number): Demand => ({
  ...LONGEST,
  silences: beats === 0 ? [] : [{ ...LONGEST.silences[0]!, beats }],
});
const SURE = { clean: 0.9, beyond: 0.08, unclear: 0.02 };

describe("calibrated()", () => {
  const prior = priorCalibration(DEFAULT_POPULATION.shift);
  const learnt = (beats: number, verdict: "within" | "beyond" | "unclear", takes: number) => {
    let calibration = prior;
    for (let i = 0; i < takes; i++)
      calibration = recalibrated(calibration, demandOfLength(beats), { chances: SURE, verdict });
    return calibration;
  };
  const cleanAt = (calibration: typeof prior, beats: number): number =>
    calibrated(calibration, demandOfLength(beats), { chances: SURE, shifts: "averaged" }).clean;

  test("failing at a length tells most of that and longer ones, less of shorter ones, and little of takes without silences", () => {
    const failed = learnt(8, "beyond", 4);
    const lost = (beats: number): number => cleanAt(prior, beats) - cleanAt(failed, beats);
    expect(lost(8)).toBeGreaterThan(0.4);
    expect(lost(16)).toBeGreaterThan(0.4);
    expect(lost(2)).toBeLessThan(lost(4));
    expect(lost(4)).toBeLessThan(lost(8));
    expect(lost(0)).toBeLessThan(0.5 * lost(8));
  });

  test("an unclear take tells of being unclear and of nothing else", () => {
    const unclear = learnt(8, "unclear", 4);
    expect(unclear.clean).toBe(prior.clean);
    const {
      clean,
      beyond,
      unclear: open,
    } = calibrated(unclear, demandOfLength(8), { chances: SURE, shifts: "averaged" });
    const before = calibrated(prior, demandOfLength(8), { chances: SURE, shifts: "averaged" });
    expect(open).toBeGreaterThan(before.unclear);
    expect(clean / beyond).toBeCloseTo(before.clean / before.beyond, 9);
  });

  test("keeps its cases as probabilities, whatever comes", () => {
    const chance = random("cases");
    let calibration = prior;
    for (let i = 0; i < 200; i++) {
      const verdict = (["within", "beyond", "unclear"] as const)[chance.below(3)]!;
      calibration = recalibrated(calibration, demandOfLength(chance.below(20)), { chances: SURE, verdict });
      for (const { cases } of [calibration.clean, calibration.unclear]) {
        expect(cases.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        for (const { covariance } of cases)
          for (const [j, row] of covariance.entries()) expect(row[j]).toBeGreaterThan(0);
      }
    }
  });

  test("runs drawn from it come to what it says, so that an outlook and a forecast agree", () => {
    const failed = learnt(8, "beyond", 2);
    const chance = random("runs");
    const drawn = Array.from(
      { length: 2000 },
      () => calibrated(drawCalibration(failed, chance), demandOfLength(8), { chances: SURE, shifts: "typical" }).clean,
    );
    // Standard error of the mean of chances of an SD of 0.4 at most over 2000 runs: 0.009; the slope formula is good to about 0.02.
    expect(Math.abs(MEAN(drawn) - cleanAt(failed, 8))).toBeLessThan(0.045);
  });
});

test("forecast() of the longest silence has its interval about it, and chances that add up to 1", () => {
  const { belief } = follow("tern", "lost", { fails: 3, cleans: 0 });
  const { clean, beyond, unclear, interval } = forecast(belief, LONGEST);
  expect(clean + beyond + unclear).toBeCloseTo(1, 12);
  expect(interval[0]).toBeLessThanOrEqual(interval[1]);
});
