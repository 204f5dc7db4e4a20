import { describe, expect, test } from "vitest";
import { fraction, fractionText, multiply, parseFraction, subtract, toNumber } from "../../../../lib/base/index.js";
import { type Drill, lengthsInTake, rungs, scoreOf } from "../../../../lib/drill/index.js";
import { lengthText, silencesText } from "../../../../lib/render/sheet/drillText.js";
import { combinations, formsOf } from "../../../../lib/render/sheet/riff/riffForms.js";
import { legendOf } from "../../../../lib/render/sheet/riff/silenceStrip.js";
import { silencesOf } from "../../../../lib/render/sheet/riff/silences.js";
import { ENGLISH } from "../../../../lib/render/sheet/words.js";
import { HARD, SHIPPED } from "../material.js";

const DRILLS = [...SHIPPED, HARD].flatMap(({ drills }) => drills);
const named = (name: string): Drill => DRILLS.find((drill) => drill.name === name)!;
const DROPPING = DRILLS.filter((drill) => drill.dropout !== undefined && drill.dropout.place.at !== "random");
/** Drills whose rungs can be listed in a test. */
const SHORT = DRILLS.filter((drill) => rungs(drill).count <= 2000);

describe("silencesOf()", () => {
  test.each(DROPPING.map((drill) => [drill.name, drill] as const))(
    "shows each length where the score of its rung has it: %s",
    (_, drill) => {
      const rows = silencesOf(drill, ENGLISH).groups.flatMap((group) => group.rows);
      expect(rows.length).toBeGreaterThan(0);
      const all = rungs(drill);
      for (let i = 0; i < Math.min(all.count, 60); i++) {
        const score = scoreOf(all.at(i));
        const lengths = lengthsInTake(drill, all.at(i).settings);
        expect(lengths).toHaveLength(score.dropouts.length);
        const perPhrase = lengths.length / drill.phrases;
        for (let phrase = 0; phrase < drill.phrases; phrase++) {
          const start = multiply(drill.pattern.length, fraction(phrase));
          const within = (position: string | undefined): string =>
            fractionText(subtract(parseFraction(position!)!, start));
          const inPhrase = score.dropouts.slice(phrase * perPhrase, (phrase + 1) * perPhrase);
          const expected = inPhrase.map(
            ({ fromPosition, toPosition }) => `${within(fromPosition)}-${within(toPosition)}`,
          );
          const label = lengthText(lengths[phrase * perPhrase]!, ENGLISH);
          const found = rows
            .filter((row) => row.label === label && row.isPartial === score.dropouts.some(({ silent }) => !silent))
            .map((row) => row.silences.map(({ from, to }) => `${fractionText(from)}-${fractionText(to)}`));
          if (silencesOf(drill, ENGLISH).leftOut === 0) expect(found.length).toBeGreaterThan(0);
          for (const each of found) expect(each).toEqual(expected);
        }
      }
    },
  );

  test("has a row for each length of silences that grow inside one take, and words for the range", () => {
    const rows = silencesOf(named("growing"), ENGLISH).groups.flatMap((group) => group.rows);
    expect(rows.map(({ label }) => label)).toEqual(["½ bar", "1 bar", "1½ bars", "2 bars"]);
    expect(rows.map(({ silences }) => silences.map(({ from, to }) => [toNumber(from), toNumber(to)]))).toEqual([
      [[3.5, 4]],
      [[3, 4]],
      [[2.5, 4]],
      [[2, 4]],
    ]);
    expect(silencesText("1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases", ENGLISH)).toBe("½ bar growing to 1½ bars");
    expect(silencesText("1 1/2 bars", ENGLISH)).toBe("1½ bars");
  });

  test("says how many lengths it leaves out of a long climb, and shows both ends", () => {
    const silences = silencesOf(named("hard"), ENGLISH);
    const labels = silences.groups[0]!.rows.map(({ label }) => label);
    expect(labels).toHaveLength(8);
    expect(labels[0]).toBe("⅛ note");
    expect(labels.at(-1)).toBe("2 whole notes");
    expect(silences.leftOut).toBe(8);
    expect(legendOf(silences, ENGLISH)).toContain("8 more lengths lie between these");
  });

  test("gives no place to a silence that moves, and nothing to a drill without one", () => {
    expect(silencesOf(named("tidewater-dropouts"), ENGLISH).moves).toBe(true);
    expect(legendOf(silencesOf(named("tidewater-dropouts"), ENGLISH), ENGLISH)).toContain("½ bar, 1 bar, 2 bars");
    expect(silencesOf(named("steady"), ENGLISH).groups).toEqual([]);
    expect(legendOf(silencesOf(named("steady"), ENGLISH), ENGLISH)).toBe("");
  });
});

describe("formsOf()", () => {
  test.each(SHORT.map((drill) => [drill.name, drill] as const))(
    "has each shape of the riff that a rung has, once: %s",
    (_, drill) => {
      const all = rungs(drill);
      const shape = (settings: { variant?: string; key?: string; open?: string }): string =>
        JSON.stringify([settings.variant, settings.key, settings.open]);
      const met = new Set(Array.from({ length: all.count }, (_, i) => shape(all.at(i).settings)));
      expect(formsOf(drill).map((form) => shape(form.settings))).toEqual([...met]);
    },
  );

  test("combinations() of nothing is one", () => {
    expect(combinations(named("steady"), [])).toEqual([{}]);
  });
});
