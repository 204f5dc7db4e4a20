import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { openCells } from "../../lib/progress/summary/driftCells.js";
import { compareLengths, openDrift } from "../../lib/report/drift.js";
import type { LengthDrift, TakeAssessed } from "../../lib/schema/index.js";
import { aLength, takeEvent } from "./journals.js";

function driftOf(takes: readonly TakeAssessed[]): readonly LengthDrift[] {
  const drift = openDrift();
  const cells = openCells();
  for (const take of takes) cells.add(take);
  drift.add(cells.close());
  return drift.close();
}

describe("drift by length of silence", () => {
  test("counts the silences of a take in which they grow by their own lengths", () => {
    const grown = takeEvent({
      take: "a",
      rung: "dropout=1/2 bar to 1 bar by 1/2 bar each 2 phrases,tempo=84",
      lengths: ["1/2 bar", "1/2 bar", "1 bar", "1 bar"],
      silences: [
        [-10, 9, -0.8, -41],
        [-20, 9, -1.6, -61],
        [null, null, null, null],
        [-40, 9, -1.6, null],
      ],
    });
    const even = takeEvent({ take: "b", rung: "dropout=1 bar,tempo=84", silences: [[-60, 9, -2.4, null]] });
    expect(
      driftOf([grown, even]).map(({ length, takes, measured, unmeasured, driftMs }) => [
        length,
        takes,
        measured,
        unmeasured,
        driftMs?.median,
      ]),
    ).toEqual([
      ["1/2 bar", 1, 2, 0, -15],
      ["1 bar", 2, 2, 1, -50],
    ]);
  });

  test("is the median and the middle half of all silences of a week, signed, with what could not be measured", () => {
    const rushed = takeEvent({
      take: "a",
      rung: "dropout=1 bar,tempo=84",
      silences: [
        [-40, 9, -1.6, -41],
        [-60, 9, -2.4, -61],
        [null, null, null, null],
        [-20, 9, -0.8, null],
      ],
    });
    const dragged = takeEvent({
      take: "b",
      at: "2026-03-09T17:30:00Z",
      rung: "dropout=1/2 bar,tempo=84",
      silences: [[12.4, 5, 1.04, 10]],
    });
    expect(driftOf([rushed, dragged])).toEqual([
      {
        length: "1/2 bar",
        told: "each silence",
        takes: 1,
        measured: 1,
        unmeasured: 0,
        driftMs: { median: 12, low: 12, high: 12 },
        driftPercent: { median: 1, low: 1, high: 1 },
        landings: { measured: 1, ms: { median: 10, low: 10, high: 10 } },
        weeks: [
          {
            week: "2026-03-09",
            takes: 1,
            measured: 1,
            unmeasured: 0,
            driftMs: { median: 12, low: 12, high: 12 },
            driftPercent: { median: 1, low: 1, high: 1 },
            landings: { measured: 1, ms: { median: 10, low: 10, high: 10 } },
          },
        ],
      },
      expect.objectContaining({
        length: "1 bar",
        takes: 1,
        measured: 3,
        unmeasured: 1,
        driftMs: { median: -40, low: -50, high: -30 },
        driftPercent: { median: -1.6, low: -2, high: -1.2 },
        landings: { measured: 2, ms: { median: -51, low: -56, high: -46 } },
      }),
    ]);
  });

  test("leaves takes out that can be read in several ways, and says how many silences that were", () => {
    const silences = [
      [700, 9, 28, 41],
      [-600, 9, -24, 10],
    ] as const;
    const [row] = driftOf([takeEvent({ take: "a", verdict: "unclear", silences, reasons: ["TWO_PAIRINGS"] })]);
    expect(row).toMatchObject({ takes: 1, measured: 0, unmeasured: 2 });
    expect(row).not.toHaveProperty("driftMs");
  });

  test("keeps takes of which only the largest drift is known apart, and passes over takes without silences", () => {
    const old = takeEvent({ take: "a", measured: { driftMs: -80, driftPercent: -4, standardErrorMs: 9 } });
    const silent = takeEvent({ take: "b" });
    const steady = takeEvent({ take: "c", rung: "tempo=84,variant=plain" });
    const each = takeEvent({ take: "d", silences: [[10, 9, 0.5, 10]] });
    const rows = driftOf([old, silent, steady, each]);
    expect(rows).toMatchObject([
      { length: "1/2 bar", told: "each silence", takes: 1, measured: 1, unmeasured: 0 },
      { length: "1/2 bar", told: "largest of a take", takes: 2, measured: 1, unmeasured: 1 },
    ]);
  });

  test("puts lengths in order, unknown ones last, and weeks too", () => {
    const lengths = ["2 bars", "1/2 bar", "3 beats", "1 1/2 bars", "1/8 note", "1 bar"];
    const weeks = ["2026-03-30T10:00:00Z", "2026-03-02T10:00:00Z", "2027-01-04T10:00:00Z"];
    const takes = lengths.flatMap((length) =>
      weeks.map((at, i) => takeEvent({ take: `${length} ${i}`, at, rung: `dropout=${length},tempo=80`, silences: [] })),
    );
    const odd = takeEvent({ take: "odd", rung: "a rung of long ago", silences: [[1, 1, 1, 1]] });
    const rows = driftOf([odd, ...takes]);
    expect(rows.map(({ length }) => length)).toEqual([
      "1/8 note",
      "1/2 bar",
      "3 beats",
      "1 bar",
      "1 1/2 bars",
      "2 bars",
      undefined,
    ]);
    expect(rows[0]!.weeks.map(({ week }) => week)).toEqual(["2026-03-02", "2026-03-30", "2027-01-04"]);
  });

  test("compareLengths() orders any texts, consistently", () => {
    const text = fc.option(fc.oneof(aLength, fc.string()), { nil: undefined });
    fc.assert(
      fc.property(fc.array(text, { maxLength: 12 }), (lengths) => {
        // Wrapped, because sort() itself puts undefined last.
        const inOrder = lengths.map((length) => ({ length })).sort((a, b) => compareLengths(a.length, b.length));
        for (let i = 1; i < inOrder.length; i++)
          expect(compareLengths(inOrder[i - 1]!.length, inOrder[i]!.length)).toBeLessThanOrEqual(0);
      }),
    );
  });
});
