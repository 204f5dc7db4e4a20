import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseSettings, parseSilenceLengths } from "../../lib/drill/index.js";
import { lengthIndexIn, silenceLengthsText } from "../../lib/drill/silenceLengths.js";

const canonical = (text: string): string => {
  const read = parseSilenceLengths(text);
  if (!read.ok) throw new Error(read.problems[0]!.message);
  return silenceLengthsText(read.value);
};

describe("lengths of silence", () => {
  test("one length is written as before", () => {
    expect(canonical("2/4 bar")).toBe("1/2 bar");
    expect(parseSilenceLengths("3 beats")).toMatchObject({ ok: true, value: { each: 1, lengths: [{ unit: "beat" }] } });
  });

  test("equal lengths of silence have equal texts: steps, lists and lists with repetitions", () => {
    const steps = "1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases";
    expect(canonical(steps)).toBe(steps);
    expect(canonical("1/2 bar then 1 bar then 1 1/2 bars each 2 phrases")).toBe(steps);
    expect(canonical("1/2 bar then 1/2 bar then 1 bar then 1 bar then 1 1/2 bars then 1 1/2 bars each 1 phrase")).toBe(
      steps,
    );
    expect(canonical("1/2 bar to 1 bar by 1/2 bar")).toBe("1/2 bar to 1 bar by 1/2 bar each 1 phrase");
    expect(canonical("1 bar to 1 bar by 1/2 bar each 3 phrases")).toBe("1 bar");
    expect(canonical("1/2 bar then 2 bars then 3 bars each 1 phrase")).toBe(
      "1/2 bar then 2 bars then 3 bars each 1 phrase",
    );
  });

  test("a length holds for its phrases, and the last one to the end", () => {
    const read = parseSilenceLengths("1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases");
    const lengths = read.ok ? read.value : undefined;
    expect([1, 2, 3, 4, 5, 6, 7, 64].map((phrase) => lengthIndexIn(lengths!, phrase))).toEqual([
      0, 0, 1, 1, 2, 2, 2, 2,
    ]);
  });

  test("steps reach their end, in one unit, within 64 phrases", () => {
    for (const text of [
      "1/2 bar to 2 bars by 1 bar each 2 phrases",
      "1 bar to 1/2 bar by 1/2 bar each 1 phrase",
      "1/2 bar to 4 beats by 1 beat each 1 phrase",
      "1/96 bar to 1 bar by 1/96 bar each 1 phrase",
      "1/2 bar to 1 bar by 1/2 bar each 0 phrases",
    ])
      expect(parseSilenceLengths(text)).toMatchObject({ ok: false, problems: [{ code: "SETTING_NOT_READ" }] });
    expect(parseSilenceLengths("1/2 bar to 1 ham by 1/2 bar")).toMatchObject({
      ok: false,
      problems: [{ code: "SPAN_UNIT_UNKNOWN" }],
    });
  });

  test("the canonical text reads back as itself, and settings hold it", () => {
    const text = fc
      .record({
        counts: fc.array(fc.integer({ min: 1, max: 16 }), { minLength: 1, maxLength: 12 }),
        each: fc.integer({ min: 1, max: 5 }),
        unit: fc.constantFrom("1/4 bars", "2/1 beats", "/16 note"),
      })
      .map(({ counts, each, unit }) => {
        const rising = [...counts].sort((a, b) => a - b);
        const spans = rising.map((n) =>
          unit === "/16 note" ? `${n}/16 note` : unit === "1/4 bars" ? `${n}/4 bars` : `${n} beats`,
        );
        return spans.length === 1 ? spans[0]! : `${spans.join(" then ")} each ${each} phrases`;
      });
    fc.assert(
      fc.property(text, (written) => {
        const once = canonical(written);
        expect(canonical(once)).toBe(once);
        expect(parseSettings(`dropout=${once},tempo=80`)).toMatchObject({ ok: true, value: { dropout: once } });
      }),
    );
  });
});
