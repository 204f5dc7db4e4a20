import { describe, expect, test } from "vitest";
import type { Gate } from "../../../lib/drill/index.js";
import { gateCurve, waldExpectedTakes } from "../../../lib/progress/index.js";
import { gateCounter } from "../../../lib/rehearsal/climb/gateCounter.js";
import { luckOf, PURPOSES } from "../../../lib/rehearsal/students/luck.js";

const STUDENTS = 20_000;

/** Takes until a gate is met, of each of 20,000 students whose takes are clean with chance p. */
function waits(gate: Gate, p: number): readonly number[] {
  const counter = gateCounter(gate);
  return Array.from({ length: STUDENTS }, (_, student) => {
    const luck = luckOf("wait", student, "gate");
    counter.begin();
    let takes = 1;
    while (!counter.counts(luck.uniform(takes, PURPOSES.verdict) < p)) takes++;
    return takes;
  });
}

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;

const varianceOf = (values: readonly number[]): number => {
  const middle = mean(values);
  return mean(values.map((value) => (value - middle) ** 2));
};

/** Whether a mean lies within five standard errors of what it should be. */
function expectMean(values: readonly number[], expected: number): void {
  expect(Math.abs(mean(values) - expected)).toBeLessThan(5 * Math.sqrt(varianceOf(values) / STUDENTS));
}

describe("the wait at a gate", () => {
  test.each([0.5, 0.7, 0.9])("is negative binomial where clean takes only add up: chance %f", (p) => {
    // So many of the last thousand takes: none is ever forgotten. Mean r / p and variance r (1 - p) / p² (Johnson, Kemp & Kotz, from memory).
    const found = waits({ kind: "clean of last", clean: 5, of: 1000 }, p);
    expectMean(found, 5 / p);
    const expected = (5 * (1 - p)) / p ** 2;
    // Standard error of a variance: √((kurtosis - 1) / n), with kurtosis 3 + 6 / r + p² / (r (1 - p)).
    const kurtosis = 3 + 6 / 5 + p ** 2 / (5 * (1 - p));
    expect(Math.abs(varianceOf(found) - expected)).toBeLessThan(5 * expected * Math.sqrt((kurtosis - 1) / STUDENTS));
  });

  test.each([
    [0.5, 14],
    [0.7, 6.38484],
    [0.9, 3.71742],
  ])("for three in a row is (1 - p³) / ((1 - p) p³): chance %f", (p, expected) => {
    expectMean(waits({ kind: "in a row", count: 3 }, p), expected);
  });

  test.each([0.4, 0.7, 0.9])("at 3 of 4 is what gateCurve() says: chance %f", (p) => {
    const gate = { kind: "clean of last", clean: 3, of: 4 } as const;
    const curve = gateCurve(gate, p);
    const found = waits(gate, p);
    expectMean(found, curve.expectedTakes as number);
    for (const takes of [3, 5, 10, 20]) {
      const share = curve.within[takes - 1]!;
      const deviation = Math.sqrt((share * (1 - share)) / STUDENTS) + 1 / STUDENTS;
      expect(Math.abs(found.filter((wait) => wait <= takes).length / STUDENTS - share)).toBeLessThan(5 * deviation);
    }
  });

  test("at a sequential gate is what the exact chain says, and near Wald's approximation", () => {
    const gate = { kind: "sequential", able: 0.9, unready: 0.7, wronglyLetOn: 0.05, wronglyHeld: 0.05 } as const;
    const exact = gateCurve(gate, 0.9).expectedTakes as number;
    expectMean(waits(gate, 0.9), exact);
    // Wald 1945, average sample number of one test for the able: 22.78 by the formula, which neglects the overshoot of the bounds.
    expect(waldExpectedTakes(gate).able).toBeCloseTo(22.7816, 3);
    expect(exact / waldExpectedTakes(gate).able).toBeGreaterThan(1);
    expect(exact / waldExpectedTakes(gate).able).toBeLessThan(1.25);
  });
});
