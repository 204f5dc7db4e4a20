import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fraction } from "../../../lib/base/index.js";
import { type Ladder, ladderStep, ladderValue } from "../../../lib/drill/index.js";

type Values = Ladder["values"];

/** A ladder, and its values by arithmetic of its own: whole numbers of halves, or powers of a ratio. */
interface Told {
  readonly ladder: Ladder;
  readonly texts: readonly string[];
}

const told = (parameter: Ladder["parameter"], values: Values, texts: readonly string[]): Told => ({
  ladder: { parameter, count: texts.length, values, restart: "bottom" },
  texts,
});
const count = fc.integer({ min: 1, max: 12 });
const halves = (value: number): string => String(value / 2);
const bars = (value: number): string =>
  value % 2 === 0
    ? `${value / 2} ${value === 2 ? "bar" : "bars"}`
    : value === 1
      ? "1/2 bar"
      : `${(value - 1) / 2} 1/2 bars`;

const tempi = fc
  .tuple(fc.integer({ min: 120, max: 400 }), fc.integer({ min: -9, max: 9 }), count)
  .map(([from, by, steps]) => {
    const texts = Array.from({ length: by === 0 ? 1 : steps }, (_, k) => halves(from + k * by));
    return told("tempo", { kind: "tempi", from: fraction(from, 2), by: fraction(by, 2) }, texts);
  });
const spans = fc
  .tuple(fc.integer({ min: 1, max: 8 }), fc.integer({ min: 1, max: 4 }), count)
  .map(([from, by, steps]) => {
    const texts = Array.from({ length: steps }, (_, k) => bars(from + k * by));
    return told(
      "dropout",
      { kind: "spans", from: { count: fraction(from, 2), unit: "bar" }, by: fraction(by, 2) },
      texts,
    );
  });
const list = fc
  .uniqueArray(fc.constantFrom("plain", "busy", "late", "rare", "even"), { minLength: 1 })
  .map((texts) => told("variant", { kind: "list", texts }, texts));
const byRatio = fc
  // So fast that each step is a beat a minute at least: no value comes twice.
  .tuple(fc.integer({ min: 60, max: 200 }), fc.integer({ min: 2, max: 30 }), count)
  .map(([from, rise, steps]) => {
    const texts = Array.from({ length: steps }, (_, k) =>
      k === 0 ? String(from) : String(Math.floor(from * (1 + rise / 100) ** k + 0.5 + 1e-9)),
    );
    return told("tempo", { kind: "tempi by ratio", from: fraction(from), ratio: fraction(100 + rise, 100) }, texts);
  });
const any: fc.Arbitrary<Told> = fc.oneof(tempi, spans, list, byRatio);

describe("ladderValue()", () => {
  test("gives every value of a ladder, and refuses every step outside it", () => {
    fc.assert(
      fc.property(any, ({ ladder, texts }) => {
        expect(texts.map((_, k) => ladderValue(ladder, k))).toEqual(texts);
        for (const k of [-1, texts.length, 0.5, Number.NaN])
          expect(() => ladderValue(ladder, k)).toThrow(
            new RangeError(`the ladder of ${ladder.parameter} has steps 0 to ${texts.length - 1}, got ${k}`),
          );
      }),
    );
  });

  test("rounds the tempi of a climb by per cent to whole beats a minute, halves up", () => {
    // 50 * 1.05 = 52.5; 50 * 1.05^2 = 55.125; 50 * 1.05^3 = 57.88125. 70 * 1.0125 = 70.875; 62 * 1.025 = 63.55. By hand.
    const climb = (from: number, ratio: readonly [number, number]): Ladder => ({
      parameter: "tempo",
      count: 4,
      values: { kind: "tempi by ratio", from: fraction(from), ratio: fraction(...ratio) },
      restart: "bottom",
    });
    expect([0, 1, 2, 3].map((k) => ladderValue(climb(50, [105, 100]), k))).toEqual(["50", "53", "55", "58"]);
    expect(ladderValue(climb(70, [10125, 10000]), 1)).toBe("71");
    expect(ladderValue(climb(62, [1025, 1000]), 1)).toBe("64");
  });
});

describe("ladderStep()", () => {
  test("finds the step of every value, and none for a value that the ladder has not", () => {
    fc.assert(
      fc.property(any, any, ({ ladder, texts }, other) => {
        for (const text of [...texts, ...other.texts, "", "no value"]) {
          const step = texts.indexOf(text);
          expect(ladderStep(ladder, text)).toBe(step < 0 ? undefined : step);
        }
      }),
    );
  });

  test("finds none just outside a ladder, between two of its values, or in another unit", () => {
    const tempo: Ladder = {
      parameter: "tempo",
      count: 3,
      values: { kind: "tempi", from: fraction(84), by: fraction(4) },
      restart: "bottom",
    };
    for (const text of ["80", "86", "85", "87", "96", "84.0"]) expect(ladderStep(tempo, text)).toBeUndefined();
    const dropout: Ladder = {
      parameter: "dropout",
      count: 3,
      values: { kind: "spans", from: { count: fraction(1), unit: "beat" }, by: fraction(1) },
      restart: "bottom",
    };
    expect(ladderStep(dropout, "2 beats")).toBe(1);
    for (const text of ["2 bars", "4 beats", "1 1/2 beats"]) expect(ladderStep(dropout, text)).toBeUndefined();
  });

  test("finds steps where rounding moves a tempo by more than half a step", () => {
    // 40 beats per minute climbing by 1 %: the steps are 0.4 apart, less than the beat to which they are rounded. Values by hand:
    // 40, 40.4 -> 40, 40.804 -> 41, 41.212 -> 41, 41.624 -> 42.
    const ladder: Ladder = {
      parameter: "tempo",
      count: 5,
      values: { kind: "tempi by ratio", from: fraction(40), ratio: fraction(101, 100) },
      restart: "bottom",
    };
    expect([0, 1, 2, 3, 4].map((k) => ladderValue(ladder, k))).toEqual(["40", "40", "41", "41", "42"]);
    for (const text of ["40", "41", "42"]) expect(ladderValue(ladder, ladderStep(ladder, text)!)).toBe(text);
  });
});
