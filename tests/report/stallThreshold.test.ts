import { describe, expect, test } from "vitest";
import type { Gate } from "../../lib/drill/index.js";
import { stuckAfter } from "../../lib/report/index.js";
import { drillOf } from "../progress/course.js";

const waitAt = (gate: Gate): unknown => stuckAfter(drillOf({ name: "quay", tempi: [80, 4, 4], gate }));

describe("stuckAfter()", () => {
  // Somebody whose clear takes are clean with chance 0.85 and whose takes are unclear with chance 0.2 is let on by one clean take with
  // chance 0.68 a take: within n takes with 1 - 0.32^n, which is 0.898 for two and 0.967 for three. Computed by hand.
  test("waits for as many takes as let on 19 in 20 of those who are ready", () => {
    expect(waitAt({ kind: "in a row", count: 1 })).toBe(3);
  });

  // Let on by k clean of k: only all of the first k clear takes, and so on; the chance within n takes, by a sum over all 3^n rows of outcomes.
  test.each([
    [{ kind: "clean of last", clean: 2, of: 3 }],
    [{ kind: "clean of last", clean: 3, of: 4 }],
    [{ kind: "in a row", count: 2 }],
  ] as const)("agrees with going through every row of outcomes: %j", (gate) => {
    const chances = { w: 0.8 * 0.85, b: 0.8 * 0.15, u: 0.2 };
    const isMet = (clear: string): boolean =>
      gate.kind === "in a row"
        ? clear.endsWith("w".repeat(gate.count))
        : [...clear.slice(-gate.of)].filter((letter) => letter === "w").length >= gate.clean;
    let held = new Map([["", 1]]);
    let takes = 0;
    let letOn = 0;
    while (letOn < 0.95) {
      takes++;
      const next = new Map<string, number>();
      for (const [clear, chance] of held) {
        for (const letter of ["w", "b", "u"] as const) {
          const after = letter === "u" ? clear : clear + letter;
          const p = chance * chances[letter];
          if (letter === "w" && isMet(after)) letOn += p;
          else next.set(after, (next.get(after) ?? 0) + p);
        }
      }
      held = next;
    }
    expect(waitAt(gate)).toBe(takes);
  });

  test("says why it cannot be said of a gate that holds everybody, or that is too wide to compute", () => {
    expect(waitAt({ kind: "in a row", count: 60 })).toMatchObject({ unmeasured: expect.stringContaining("500 takes") });
    expect(waitAt({ kind: "clean of last", clean: 300, of: 600 })).toMatchObject({
      unmeasured: expect.stringMatching(/wide/),
    });
  });
});
