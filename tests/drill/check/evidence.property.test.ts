import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseFraction, problemsIn, toNumber } from "../../../lib/base/index.js";
import { type Drill, rungs, scoreOf } from "../../../lib/drill/index.js";
import type { DrillDocument } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { compiled, jetty } from "../material.js";

/** Over sparse variants, so that many silences have nothing to be judged by. */
const document: fc.Arbitrary<DrillDocument> = fc
  .record({
    at: fc.constantFrom("end" as const, "start" as const, [2, 4], [3]),
    phrases: fc.integer({ min: 1, max: 3 }),
    outro: fc.constantFrom("none", "1/4 bar", "1 bar", "2 bars"),
    from: fc.constantFrom("1/8 bar", "1/4 bar", "3/4 bar"),
    steps: fc.integer({ min: 0, max: 4 }),
    variant: fc.subarray(["rare", "late", "even"], { minLength: 1 }),
    open: fc.subarray([[], [1], [4], [2, 3]], { minLength: 1 }),
  })
  .map(({ at, from, steps, variant, open, ...rest }) => {
    const eighths = { "1/8 bar": 1, "1/4 bar": 2, "3/4 bar": 6 }[from]! + steps;
    return jetty({
      ...rest,
      pattern: "buoy",
      variant: undefined,
      tolerance: { drift: "300 ms", landing: "300 ms" },
      dropout: { at },
      ladders: [{ dropout: { from, to: `${eighths}/8 bar`, by: "1/8 bar" } }, { variant }, { open }],
    });
  });

const at = (text: string | undefined): number => toNumber(parseFraction(text!)!);

/** The same question put to the score of every rung. */
function askEveryRung(drill: Drill): { readonly drift: boolean; readonly landing: boolean } {
  const all = rungs(drill);
  let [drift, landing] = [true, true];
  for (let i = 0; i < all.count; i++) {
    const score = scoreOf(all.at(i));
    const onsets = score.expected.map(({ position }) => at(position));
    for (const dropout of score.dropouts) {
      const [from, to] = [at(dropout.fromPosition), at(dropout.toPosition)];
      drift &&= onsets.some((onset) => onset > from && onset <= to);
    }
    // What is judged is asked of the judge: a finding has no landing where no note is expected soon enough.
    const found = assess(score, { onsets: [] }).dropouts;
    landing &&= score.dropouts.every((dropout, k) => dropout.landing === null || found[k]!.landing !== null);
  }
  return { drift, landing };
}

describe("compileDrill()", () => {
  test("finds silences without notes to judge them by exactly when the score of some rung has one", () => {
    fc.assert(
      fc.property(document, (written) => {
        const codes = problemsIn(compiled(written)).map(({ code }) => code);
        const without = codes.some(
          (code) => code === "DROPOUT_WITHOUT_EXPECTED_ONSET" || code === "DROPOUT_ONLY_OVER_OPEN_BARS",
        );
        const lax = compiled({ ...written, tolerance: { steadiness: "100 ms" } });
        if (!lax.ok) return;
        const truth = askEveryRung(lax.value);
        expect(without).toBe(!truth.drift);
        expect(codes.includes("LANDING_WITHOUT_EXPECTED_ONSET")).toBe(!truth.landing);
      }),
      { numRuns: 300 },
    );
  });
});
