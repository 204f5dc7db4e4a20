import { describe, expect, test } from "vitest";
import type { Gate } from "../../../lib/drill/index.js";
import { gateMet, weigh } from "../../../lib/progress/index.js";

/** Every series of up to so many takes: clean, beyond tolerance, unclear. */
function everySeries(longest: number): readonly string[] {
  const all = [""];
  for (let from = 0, length = 1; length <= longest; length++) {
    const until = all.length;
    for (; from < until; from++) for (const take of "wbu") all.push(all[from]! + take);
  }
  return all;
}

const SERIES = everySeries(7);

/** Places of the takes that are not unclear. */
const clearIn = (series: string): readonly number[] => [...series].flatMap((take, i) => (take === "u" ? [] : [i]));

const only = (take: string, places: readonly number[], series: string): readonly number[] =>
  places.filter((i) => series[i] === take);

describe("weigh(), of every series of up to seven takes", () => {
  test("has every one of them", () => {
    // 1 + 3 + 9 + ... + 3^7 = (3^8 - 1) / 2
    expect(new Set(SERIES).size).toBe(3280);
    expect(SERIES).toHaveLength(3280);
  });

  test.each([
    [1, 1],
    [2, 3],
    [3, 4],
    [3, 3],
  ])("asks for %i clean takes out of the last %i clear ones, and names all it looked at", (clean, of) => {
    for (const series of SERIES) {
      const window = clearIn(series).slice(-of);
      const shown = only("w", window, series);
      const expected = { met: shown.length >= clean, clean: shown, beyond: only("b", window, series) };
      expect(weigh({ kind: "clean of last", clean, of }, series), series).toEqual(expected);
    }
  });

  test.each([1, 2, 3])(
    "asks for %i clean takes in a row: unclear ones do not break it, and of a longer row only the latest count",
    (count) => {
      for (const series of SERIES) {
        const row = series.replaceAll("u", "").match(/w*$/)![0].length;
        const shown = clearIn(series).slice(clearIn(series).length - Math.min(row, count));
        const expected = { met: row >= count, clean: shown, beyond: [] };
        expect(weigh({ kind: "in a row", count }, series), series).toEqual(expected);
      }
    },
  );

  test.each([
    [0.85, 0.5, 0.1, 0.1],
    [0.9, 0.3, 0.2, 0.1],
    [0.9, 0.3, 0.4, 0.3],
  ])(
    "asks a sequential gate (able %f, unready %f, errors %f and %f) for a likelihood ratio since a test last held the player",
    (able, unready, wronglyLetOn, wronglyHeld) => {
      const gate: Gate = { kind: "sequential", able, unready, wronglyLetOn, wronglyHeld };
      // Wald (1945): a test ends below B = β / (1 - α) and lets on from A = (1 - β) / α; worked out by products, not by logarithms.
      const letOn = (1 - wronglyHeld) / wronglyLetOn;
      const held = wronglyHeld / (1 - wronglyLetOn);
      let letOnEver = 0;
      let heldEver = 0;
      for (const series of SERIES) {
        let since: number[] = [];
        let ratio = 1;
        for (const i of clearIn(series)) {
          since.push(i);
          ratio *= series[i] === "w" ? able / unready : (1 - able) / (1 - unready);
          if (ratio > held) continue;
          since = [];
          ratio = 1;
          heldEver++;
        }
        const expected = { met: ratio >= letOn, clean: only("w", since, series), beyond: only("b", since, series) };
        expect(weigh(gate, series), series).toEqual(expected);
        if (expected.met) letOnEver++;
      }
      expect(Math.min(letOnEver, heldEver)).toBeGreaterThan(10);
    },
  );

  test("takes a ratio that reaches a bound of a sequential gate exactly for one beyond it", () => {
    // Bounds 3 and 1/3; a clean take makes the ratio 3, one beyond tolerance 1/3.
    const gate: Gate = { kind: "sequential", able: 0.75, unready: 0.25, wronglyLetOn: 0.25, wronglyHeld: 0.25 };
    expect(weigh(gate, "w")).toEqual({ met: true, clean: [0], beyond: [] });
    expect(weigh(gate, "bu")).toEqual({ met: false, clean: [], beyond: [] });
  });

  test("is not met by a sequential gate whose parameters make no test", () => {
    const gate = { kind: "sequential", able: 0.8, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 } as const;
    for (const broken of [
      { ...gate, able: 0.5 },
      { ...gate, wronglyHeld: 0.9 },
    ])
      expect(weigh(broken, "w".repeat(100))).toEqual({ met: false, clean: [], beyond: [] });
  });
});

describe("gateMet()", () => {
  test("is false for more takes than the gate looks at, and for a row with a take beyond", () => {
    expect(gateMet({ kind: "clean of last", clean: 3, of: 4 }, 3, 1)).toBe(true);
    expect(gateMet({ kind: "clean of last", clean: 3, of: 4 }, 3, 2)).toBe(false);
    expect(gateMet({ kind: "clean of last", clean: 3, of: 4 }, 5, 0)).toBe(false);
    expect(gateMet({ kind: "in a row", count: 3 }, 3, 0)).toBe(true);
    expect(gateMet({ kind: "in a row", count: 3 }, 3, 1)).toBe(false);
    expect(gateMet({ kind: "in a row", count: 3 }, 2, 0)).toBe(false);
  });
});
