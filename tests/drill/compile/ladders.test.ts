import { describe, expect, test } from "vitest";
import { ladderStep, ladderValue } from "../../../lib/drill/index.js";
import type { LadderDocument } from "../../../lib/schema/index.js";
import { compiled, drillOf, found, jetty } from "../material.js";

function ladderOf(document: LadderDocument): readonly string[] {
  const bare = { tempo: document.tempo ? undefined : 92, variant: document.variant ? undefined : "plain" };
  const drill = drillOf(
    jetty({ ...bare, dropout: document.dropout ? {} : { length: "1/2 bar" }, ladders: [document] }),
  );
  const [ladder] = drill.ladders;
  const values = Array.from({ length: ladder!.count }, (_, k) => ladderValue(ladder!, k));
  expect(values.map((value) => ladderStep(ladder!, value))).toEqual(values.map((_, k) => k));
  return values;
}

function problemsOf(ladder: LadderDocument): readonly (readonly [string, string | undefined])[] {
  const bare = { tempo: ladder.tempo ? undefined : 92, variant: ladder.variant ? undefined : "plain" };
  const result = compiled(jetty({ ...bare, dropout: ladder.dropout ? {} : { length: "1/2 bar" }, ladders: [ladder] }));
  return (result.ok ? result.advice : result.problems).map(({ code, remedy }) => [code, remedy] as const);
}

describe("a ladder", () => {
  test.each([
    [{ dropout: { from: "1/2 bar", to: "2 bars", by: "1/2 bar" } }, ["1/2 bar", "1 bar", "1 1/2 bars", "2 bars"]],
    [{ dropout: { from: "2 beats", to: "1 bar", by: "1/4 note" } }, ["2 beats", "3 beats", "4 beats"]],
    [{ dropout: { from: "1 bar", to: "1 bar", by: "1 bar" } }, ["1 bar"]],
    [{ dropout: ["2 beats", "1 bar", "2 bars"] }, ["2 beats", "1 bar", "2 bars"]],
    [{ tempo: { from: 84, to: 92, by: 4 } }, ["84", "88", "92"]],
    [{ tempo: { from: 60, to: 61, by: 0.25 } }, ["60", "60.25", "60.5", "60.75", "61"]],
    [{ tempo: { from: 92, to: 84, by: -4 } }, ["92", "88", "84"]],
    [{ tempo: [60, 90, 72.5] }, ["60", "90", "72.5"]],
    [{ variant: ["plain", "busy"] }, ["plain", "busy"]],
    [{ key: ["D dorian", "G dorian"] }, ["D dorian", "G dorian"]],
    [{ parts: [["kit"], ["kit", "bass"]] }, ["kit", "bass+kit"]],
    [{ mix: ["play", "listen"] }, ["play", "listen"]],
    [{ open: [[], [2], [3, 2]] }, ["none", "2", "2+3"]],
  ] as const)("%j has the values %j", (document, values) => {
    expect(ladderOf(document as LadderDocument)).toEqual(values);
  });

  test("climbs by per cent to whole beats a minute, halves up: 60 * 1.1^k", () => {
    // 60 * 1.1^k computed by hand: 66, 72.6, 79.86, 87.846, 96.6306.
    expect(ladderOf({ tempo: { from: 60, to: 97, by: "10 %" } })).toEqual(["60", "66", "73", "80", "88", "97"]);
    expect(ladderOf({ tempo: { from: 100, to: 81, by: "-10 %" } })).toEqual(["100", "90", "81"]);
    // 132.3 is no mark of a metronome; 62.5 is as it is written, 75 * 1.5 = 112.5 goes up.
    expect(ladderOf({ tempo: { from: 120, to: 133, by: "5 %" } })).toEqual(["120", "126", "132"]);
    expect(ladderOf({ tempo: { from: 62.5, to: 69, by: "10 %" } })).toEqual(["62.5", "69"]);
    expect(ladderOf({ tempo: { from: 75, to: 113, by: "50 %" } })).toEqual(["75", "113"]);
  });

  test("by per cent that does not meet its end stops before it and says where", () => {
    expect(problemsOf({ tempo: { from: 60, to: 99, by: "10 %" } })).toEqual([["LADDER_STOPS_SHORT", "write 97"]]);
    expect(problemsOf({ tempo: { from: 60, to: 66, by: "10 %" } })).toEqual([]);
  });

  test.each([
    [
      { dropout: { from: "1/2 bar", to: "2 bars", by: "1 bar" } },
      "LADDER_NEVER_REACHES_ITS_END",
      "write 1 1/2 bars or 2 1/2 bars",
    ],
    [{ tempo: { from: 84, to: 93, by: 4 } }, "LADDER_NEVER_REACHES_ITS_END", "write 92 or 96"],
    [{ tempo: { from: 92, to: 83, by: -4 } }, "LADDER_NEVER_REACHES_ITS_END", "write 84 or 80"],
    [{ tempo: { from: 84, to: 92, by: -4 } }, "LADDER_WRONG_WAY", "write by: 4, or exchange from and to"],
    [{ tempo: { from: 92, to: 84, by: "5 %" } }, "LADDER_WRONG_WAY", "write by: -5 %, or exchange from and to"],
    [{ dropout: { from: "2 bars", to: "1 bar", by: "1 bar" } }, "LADDER_WRONG_WAY", "write from: 1 bar, to: 2 bars"],
    [{ tempo: { from: 84, to: 92, by: 0 } }, "LADDER_STANDS_STILL", "write for instance 4, or 5 %"],
    [{ tempo: { from: 92, to: 84, by: 0 } }, "LADDER_STANDS_STILL", "write for instance -4, or -5 %"],
    [{ tempo: { from: 84, to: 92, by: "fast" } }, "LADDER_STEP_NOT_READ", "write for instance 4, or 5 %"],
    [
      { tempo: { from: 84, to: 92, by: "1 %" } },
      "LADDER_REPEATS_A_VALUE",
      "use a larger percentage, or beats per minute",
    ],
    [{ variant: [] }, "LADDER_EMPTY", "write the values it climbs through, easiest first, or leave the ladder out"],
    [{ dropout: ["1 bar", "4 beats"] }, "LADDER_REPEATS_A_VALUE", "leave one out"],
    [
      {
        parts: [
          ["kit", "bass"],
          ["bass", "kit"],
        ],
      },
      "LADDER_REPEATS_A_VALUE",
      "leave one out",
    ],
    [
      { parts: [[]] },
      "DROPPING_PARTS_EMPTY",
      "name at least one part; for a drill without silences leave the dropout out",
    ],
    [{ parts: [["lead"]] }, "STUDENT_AMONG_DROPPING_PARTS", "leave lead out; the mixes say what it does"],
    [{ parts: [["kitt"]] }, "PART_UNKNOWN", "write kit"],
    [{ variant: ["plan"] }, "VARIANT_UNKNOWN", "write plain"],
    [{ mix: ["plays"] }, "MIX_UNKNOWN", "write play"],
    [{ open: [[5]] }, "OPEN_BAR_OUTSIDE_PATTERN", "write a bar from 1 to 4"],
    [{ dropout: ["1/97 bar"] }, "LENGTH_TOO_FINE", "write a coarser part, such as 1/2, 1/3 or 1/8"],
    [
      { tempo: { from: 84, to: 92, by: 4 }, restart: "top" },
      "RESTART_NOT_READ",
      "write bottom, or for instance 2 rungs back",
    ],
    [{ tempo: { from: 84, to: 92, by: 4 }, restart: "3 rungs back" }, "RESTART_BELOW_BOTTOM", "write bottom"],
    [{}, "LADDER_FORM", "write for instance tempo: { from: 76, to: 100, by: 8 }"],
    [{ variant: ["plain"], key: ["D dorian"] }, "LADDER_FORM", "write one ladder for each"],
  ] as const)("%j is refused: %s", (document, code, remedy) => {
    expect(problemsOf(document as LadderDocument)).toContainEqual([code, remedy]);
  });

  test("keeps to one unit where the meter changes", () => {
    const document = jetty({
      pattern: "tide",
      variant: undefined,
      dropout: {},
      ladders: [{ dropout: { from: "1 beat", to: "1 bar", by: "1 beat" } }],
    });
    expect(found(document)).toContain("LADDER_UNITS_DIFFER /ladders/0/dropout");
  });

  test("is the only one for its parameter", () => {
    const ladders = [{ key: ["D dorian"] }, { key: ["G dorian"] }];
    expect(found(jetty({ ladders }))).toEqual(["LADDER_TWICE /ladders/1/key"]);
  });

  test("reports ladders that multiply beyond exact counting", () => {
    const steps = { from: 1, to: 1000, by: 0.000001 };
    const lengths = Array.from({ length: 383 }, (_, k) => `${k + 1}/96 bar`);
    const opens = Array.from({ length: 16 }, (_, k) => [1, 2, 3, 4].filter((bar) => (k >> (bar - 1)) & 1));
    const keys = ["C", "D", "E", "F", "G", "A", "B"].flatMap((tonic) =>
      ["", "b", "#"].flatMap((sign) =>
        ["dorian", "major", "minor", "lydian", "phrygian", "mixolydian", "locrian"].map(
          (mode) => `${tonic}${sign} ${mode}`,
        ),
      ),
    );
    const document = jetty({
      tempo: undefined,
      variant: undefined,
      dropout: {},
      ladders: [
        { tempo: steps },
        { dropout: lengths },
        { open: opens },
        { key: keys },
        { variant: ["plain", "busy"] },
        { parts: [["kit"], ["bass"], ["kit", "bass"]] },
        { mix: ["play", "listen"] },
      ],
    });
    expect(found(document)).toContain("TOO_MANY_RUNGS /ladders");
  });

  test("reads a thousand million tempi as readily as three", () => {
    const drill = drillOf(
      jetty({ tempo: undefined, phrases: 1, ladders: [{ tempo: { from: 1, to: 200, by: 0.0000_01 } }] }),
    );
    const [ladder] = drill.ladders;
    expect(ladder!.count).toBe(199_000_001);
    expect(ladderValue(ladder!, 123_456_789)).toBe("124.456789");
    expect(ladderStep(ladder!, "124.456789")).toBe(123_456_789);
    expect(ladderStep(ladder!, "124.4567895")).toBeUndefined();
  });
});
