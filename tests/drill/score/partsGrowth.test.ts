import { describe, expect, test } from "vitest";
import { findRung, rungs, scoreOf } from "../../../lib/drill/index.js";
import { parsePartsInTake, partsInTakeText } from "../../../lib/drill/partsInTake.js";
import { drillOf, found, jetty } from "../material.js";

const growing = (parts: object, changes: object = {}): ReturnType<typeof jetty> =>
  jetty({ phrases: undefined, ...changes, dropout: { length: "1/2 bar", parts } as never });
const FIRST_KIT = { grows: [["kit"], ["kit", "bass"]], each: "2 phrases" };

describe("parts that drop one after the other in a take", () => {
  test("first the drums, then the bass as well: each silence has its own parts, and only the later ones are silent", () => {
    const score = scoreOf(rungs(drillOf(growing(FIRST_KIT))).at(0), "play");
    expect(score.rung).toContain("parts=kit > bass+kit each 2 phrases");
    expect(score.dropouts.map(({ parts, silent }) => [parts.join("+"), silent])).toEqual([
      ...[
        ["kit", false],
        ["kit", false],
      ],
      ...[
        ["bass+kit", true],
        ["bass+kit", true],
      ],
    ]);
  });

  test("a part sounds in the silences of the phrases in which it does not drop yet, and in no other", () => {
    const score = scoreOf(rungs(drillOf(growing(FIRST_KIT))).at(0), "play");
    const inSilence = (name: string): readonly number[] =>
      score.dropouts.map(
        ({ from, to }) =>
          score.parts.find((part) => part.name === name)!.notes.filter(({ at }) => at > from - 1e-6 && at < to - 1e-6)
            .length,
      );
    expect(inSilence("kit")).toEqual([0, 0, 0, 0]);
    expect(
      inSilence("bass")
        .slice(0, 2)
        .every((notes) => notes > 0),
    ).toBe(true);
    expect(inSilence("bass").slice(2)).toEqual([0, 0]);
  });

  test("the student hears something everywhere but in the silences in which all parts drop", () => {
    const score = scoreOf(rungs(drillOf(growing(FIRST_KIT))).at(0), "play");
    const gaps = score.audible.slice(1).map(({ from }, i) => [score.audible[i]!.to, from]);
    expect(gaps).toEqual(score.dropouts.filter(({ silent }) => silent).map(({ from, to }) => [from, to]));
  });

  test("a take has as many phrases as it takes, and its rung is found again by its text", () => {
    const drill = drillOf(growing(FIRST_KIT));
    expect(drill.phrases).toBe(4);
    const text = scoreOf(rungs(drill).at(0)).rung;
    const again = findRung(drill, text);
    expect(again.ok && again.value.index).toBe(0);
  });

  test("silences and their parts grow side by side, each at its own pace", () => {
    const document = jetty({
      phrases: undefined,
      dropout: { grows: ["1/2 bar", "1 bar", "2 bars"], parts: FIRST_KIT },
    });
    const score = scoreOf(rungs(drillOf(document)).at(0), "play");
    expect(score.dropouts.map(({ parts }) => parts.length)).toEqual([1, 1, 2, 2]);
    const beats = score.dropouts.map(({ from, to }) => Math.round((to - from) / score.beat));
    expect(beats).toEqual([2, 4, 8, 8]);
  });

  test("equal sets have equal texts, which are read back", () => {
    const text = "kit > bass+kit each 2 phrases";
    expect(partsInTakeText(parsePartsInTake(text))).toBe(text);
    expect(partsInTakeText(parsePartsInTake("kit >kit + bass  each 2 phrases"))).toBe(text);
    expect(partsInTakeText(parsePartsInTake("kit+bass"))).toBe("bass+kit");
  });

  test("parts that come back, more than a take has, and names that are none are told at their place", () => {
    expect(found(growing({ grows: [["kit"], ["bass"]] }))).toContain("SILENCES_SHRINK /dropout/parts/grows/1");
    expect(found(growing({ grows: [["kit"], ["kit", "basss"]] }))).toContain("PART_UNKNOWN /dropout/parts/grows/1/1");
    expect(found(growing({ grows: [["kit"], ["kit", "bass"]], each: "40 phrases" }))).toContain(
      "GROWTH_LONGER_THAN_TAKE /dropout/parts",
    );
    expect(found(growing({ grows: [["kit"]], each: "often" }))).toContain("EACH_NOT_READ /dropout/parts/each");
    expect(found(growing(FIRST_KIT, { phrases: 2 }))).toContain("GROWTH_LONGER_THAN_TAKE /phrases");
  });
});
