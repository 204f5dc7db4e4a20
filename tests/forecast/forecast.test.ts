import { describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { chancesOf, distributionOf, Z_SURE } from "../../lib/forecast/chances.js";
import { afterPractice } from "../../lib/forecast/learningCurve.js";
import type { Traits } from "../../lib/forecast/traits.js";
import {
  DEFAULT_POPULATION,
  demandOf,
  forecast,
  populationOf,
  priorBelief,
  updateBelief,
} from "../../lib/plan/index.js";
import { normalBelow } from "../../lib/take/index.js";
import { SURE } from "../../lib/take/verdict.js";
import { demandAt, drillNamed, evidence } from "../plan/course.js";
import { plainScore } from "../take/scores.js";

const STEADY: Traits = {
  motor: Math.log(8),
  clock: Math.log(2.5),
  bias: Number.NEGATIVE_INFINITY,
  tempo: 0,
  pull: 0,
  excess: Number.NEGATIVE_INFINITY,
  rate: -3,
  lapse: -40,
  first: Math.log(8),
  form: 0,
};

describe("distributionOf()", () => {
  // Open loop, Var = n clock^2 (+ n^2 var of the tempo bias): derived and simulated in VALUES.md 1.3, clock 20, motor 8 ms.
  test.each([2, 4, 8, 16])("has the drift over %i beats grow as the open loop says", (beats) => {
    const demand = demandOf(plainScore({ silent: beats, accompanied: 16 }));
    const { drifts } = distributionOf(STEADY, demand);
    // The measured drift scatters less than the true one by exactly its error.
    expect(Math.hypot(drifts[0]!.sd, drifts[0]!.error)).toBeCloseTo(20 * Math.sqrt(beats), 9);
  });

  test("adds a tempo error of 1 % as 1 % of the silence, and its pull with the beat", () => {
    const demand = demandOf(plainScore({ beat: 0.5, silent: 8, accompanied: 8 }));
    expect(distributionOf({ ...STEADY, tempo: 0.01 }, demand).drifts[0]!.mean).toBeCloseTo(40, 9);
    const slow = demandOf(plainScore({ beat: 0.5 * Math.E, silent: 8, accompanied: 8 }));
    expect(distributionOf({ ...STEADY, pull: 0.01 }, slow).drifts[0]!.mean).toBeCloseTo(40 * Math.E, 6);
  });

  test("has the steadiness of phase correction where nothing falls silent", () => {
    // Vorberg & Schulze 2002 (from memory): (clock^2 + a^2 motor^2) / (a (2 - a)) + motor^2, at a = 0.36.
    const a = 0.36;
    const wanted = Math.sqrt((20 ** 2 + a ** 2 * 8 ** 2) / (a * (2 - a)) + 8 ** 2);
    expect(distributionOf(STEADY, demandOf(plainScore({ silent: 0 }))).steadiness).toBeCloseTo(wanted, 9);
  });
});

describe("chancesOf()", () => {
  test("assumes the certainty at which takes are judged", () => {
    // The distribution function itself is good to 1e-7.
    expect(Math.abs(normalBelow(Z_SURE) - SURE)).toBeLessThan(2e-7);
  });

  test("adds up to 1, and a longer silence or a smaller tolerance is never easier", () => {
    let before = 1;
    for (const silent of [2, 4, 6, 8, 12]) {
      const chances = chancesOf(
        { ...STEADY, bias: Math.log(0.001) },
        demandOf(plainScore({ silent, tolerance: { driftMs: 60 } })),
      );
      expect(chances.clean + chances.beyond + chances.unclear).toBeCloseTo(1, 12);
      expect(chances.clean).toBeLessThanOrEqual(before);
      before = chances.clean;
    }
    let tight = 1;
    for (const driftPercent of [10, 6, 4, 2, 1]) {
      const { clean } = chancesOf(STEADY, demandOf(plainScore({ tolerance: { driftPercent } })));
      expect(clean).toBeLessThanOrEqual(tight);
      tight = clean;
    }
  });

  test("is 1 but for lapses where nothing is judged", () => {
    expect(chancesOf(STEADY, demandOf(plainScore({ tolerance: {} }))).clean).toBeCloseTo(1, 9);
  });
});

describe("afterPractice()", () => {
  test("takes the excess away exponentially, and as much in one go as in many", () => {
    const player = { motor: Math.log(20), excess: Math.log(1), rate: Math.log(1 / 30) };
    // 10 (1 + exp(-n / 30)) ms after n takes.
    expect(Math.exp(afterPractice(player, 30).motor)).toBeCloseTo(10 * (1 + Math.exp(-1)), 9);
    let steps = player;
    for (let n = 0; n < 30; n++) steps = { ...steps, ...afterPractice(steps, 1) };
    expect(steps.motor).toBeCloseTo(afterPractice(player, 30).motor, 9);
    expect(Math.exp(afterPractice(player, 1e6).motor)).toBeCloseTo(10, 9);
  });
});

describe("forecast()", () => {
  const demand = demandAt("one-bar", 0);

  test("knows nothing of a player never heard, and says so by a wide interval", () => {
    const { clean, beyond, unclear, interval, takes } = forecast(priorBelief(), demand);
    expect(clean + beyond + unclear).toBeCloseTo(1, 12);
    expect(interval[1] - interval[0]).toBeGreaterThan(0.5);
    expect(takes).toBe(0);
  });

  test("rises with steady takes, falls with restless ones, and gets surer with either", () => {
    const heard = (verdict: "within" | "beyond", by: number): ReturnType<typeof forecast> => {
      let belief = priorBelief();
      for (let i = 0; i < 12; i++) belief = updateBelief(belief, evidence(demand, verdict, by));
      return forecast(belief, demand);
    };
    const nobody = forecast(priorBelief(), demand);
    const steady = heard("within", 0.5);
    const restless = heard("beyond", 4);
    expect(steady.clean).toBeGreaterThan(nobody.clean);
    expect(restless.clean).toBeLessThan(nobody.clean);
    for (const { interval } of [steady, restless])
      expect(interval[1] - interval[0]).toBeLessThan(nobody.interval[1] - nobody.interval[0]);
  });

  test("learns from a bare verdict as well", () => {
    const nobody = forecast(priorBelief(), demand).clean;
    expect(forecast(updateBelief(priorBelief(), { demand, verdict: "within" }), demand).clean).toBeGreaterThan(nobody);
    expect(forecast(updateBelief(priorBelief(), { demand, verdict: "beyond" }), demand).clean).toBeLessThan(nobody);
  });

  test("the same takes give the same belief, and the one before is left as it was", () => {
    const first = updateBelief(priorBelief(), evidence(demand, "within", 1));
    const kept = JSON.stringify(first);
    const twice = [
      updateBelief(first, evidence(demand, "beyond", 2)),
      updateBelief(first, evidence(demand, "beyond", 2)),
    ];
    expect(twice[0]).toEqual(twice[1]);
    expect(JSON.stringify(first)).toBe(kept);
  });

  test("finds out a player's tempo error and lets it tell on longer silences", () => {
    // One who rushes by 6 %: hopeless where 5 % are allowed, whatever the length.
    let belief = priorBelief();
    const short = demandAt("half-bar", 0);
    const { ms } = short.silences[0]!;
    for (let i = 0; i < 20; i++)
      belief = updateBelief(belief, {
        demand: short,
        verdict: "within",
        driftMs: -0.06 * ms,
        standardErrorMs: 8,
        accompaniedMs: 15,
      });
    const steady = updateBelief(priorBelief(), {
      demand: short,
      verdict: "within",
      driftMs: 4,
      standardErrorMs: 8,
      accompaniedMs: 15,
    });
    const long = demandAt("two-bars", 1);
    expect(forecast(belief, long).clean).toBeLessThan(0.5 * forecast(steady, long).clean);
  });

  test("a population of steady students is forecast to be steadier than anybody", () => {
    const students = Array.from({ length: 6 }, () => {
      let belief = priorBelief();
      for (let i = 0; i < 15; i++) belief = updateBelief(belief, evidence(demand, "within", 0.5));
      return belief;
    });
    expect(populationOf(students.slice(0, 4))).toEqual(DEFAULT_POPULATION);
    const population = populationOf(students);
    expect(population.motor.mean).toBeLessThan(DEFAULT_POPULATION.motor.mean);
    expect(forecast(priorBelief(population), demand).clean).toBeGreaterThan(forecast(priorBelief(), demand).clean);
  });
});

describe("demandOf()", () => {
  test("counts the silences of a shipped rung and their lengths", () => {
    const score = scoreOf(rungs(drillNamed("one-bar")).at(0));
    const demand = demandOf(score);
    expect(demand.silences.reduce((sum, { count }) => sum + count, 0)).toBe(score.dropouts.length);
    for (const { beats, limitMs, ms } of demand.silences) {
      expect(beats).toBeCloseTo(4, 6);
      expect(limitMs).toBeCloseTo(0.06 * ms, 6);
    }
    expect([demand.landingMs, demand.steadinessMs]).toEqual([190, 35]);
  });
});
