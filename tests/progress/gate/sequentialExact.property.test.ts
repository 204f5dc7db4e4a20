import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gateMet, sequentialRates, weigh } from "../../../lib/progress/index.js";

/** A sequential gate in whole per cent, as courses write it. */
interface Percents {
  readonly able: number;
  readonly unready: number;
  readonly wronglyLetOn: number;
  readonly wronglyHeld: number;
}

const gateOf = ({ able, unready, wronglyLetOn, wronglyHeld }: Percents) => ({
  kind: "sequential" as const,
  able: able / 100,
  unready: unready / 100,
  wronglyLetOn: wronglyLetOn / 100,
  wronglyHeld: wronglyHeld / 100,
});

const percents: fc.Arbitrary<Percents> = fc
  .record({
    able: fc.integer({ min: 2, max: 99 }),
    unready: fc.integer({ min: 1, max: 98 }),
    wronglyLetOn: fc.integer({ min: 1, max: 98 }),
    wronglyHeld: fc.integer({ min: 1, max: 98 }),
  })
  .filter(({ able, unready, wronglyLetOn, wronglyHeld }) => able > unready && wronglyLetOn + wronglyHeld < 100);

/** Whether the likelihood ratio of the takes reaches the bound (1 - β) / α, in whole numbers: the definition, without logarithms. */
function reaches({ able, unready, wronglyLetOn, wronglyHeld }: Percents, clean: number, beyond: number): boolean {
  const [c, b] = [BigInt(clean), BigInt(beyond)];
  const able1 = BigInt(able) ** c * BigInt(100 - able) ** b;
  const unready1 = BigInt(unready) ** c * BigInt(100 - unready) ** b;
  return able1 * BigInt(wronglyLetOn) >= unready1 * BigInt(100 - wronglyHeld);
}

describe("a sequential gate at its very bound", () => {
  test("is met as whole numbers say, for probabilities in whole per cent", () => {
    fc.assert(
      fc.property(percents, fc.nat(40), fc.nat(40), (gate, clean, beyond) => {
        expect(gateMet(gateOf(gate), clean, beyond)).toBe(reaches(gate, clean, beyond));
      }),
      { numRuns: 20_000 },
    );
  });

  test("is met as whole numbers say, wherever the ratio is a power of one step and the bound another", () => {
    // Mirrored probabilities: a take beyond tolerance undoes a clean one, so that many series end on the bound itself.
    for (let able = 51; able < 100; able++)
      for (let wronglyLetOn = 1; wronglyLetOn < 100; wronglyLetOn++)
        for (const wronglyHeld of [1, 5, 10, 20, 25, 40, 50].filter((held) => held + wronglyLetOn < 100))
          for (let beyond = 0; beyond < 12; beyond++) {
            const gate = { able, unready: 100 - able, wronglyLetOn, wronglyHeld };
            for (const more of [1, 2, 3])
              if (gateMet(gateOf(gate), beyond + more, beyond) !== reaches(gate, beyond + more, beyond))
                expect({ ...gate, beyond, more }).toBe("as whole numbers say");
          }
  });

  test("is met by two clean takes and one beyond when they end on the bound", () => {
    const gate = gateOf({ able: 75, unready: 25, wronglyLetOn: 30, wronglyHeld: 10 });
    for (const [clean, beyond] of [
      [2, 1],
      [3, 2],
      [7, 6],
    ] as const)
      expect(gateMet(gate, clean, beyond), `${clean} clean, ${beyond} beyond`).toBe(true);
    expect(weigh(gate, "bww").met).toBe(true);
    expect(sequentialRates(gate).fewestTakes).toBe(1);
  });
});
