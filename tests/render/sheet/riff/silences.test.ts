import { describe, expect, test } from "vitest";
import { fractionText } from "../../../../lib/base/index.js";
import { type Drill, rungs, scoreOf } from "../../../../lib/drill/index.js";
import { lengthText } from "../../../../lib/render/sheet/drillText.js";
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
        const inPhrase = score.dropouts.filter(({ bars }) => (bars?.[0] ?? 0) <= drill.pattern.bars.length);
        const expected = inPhrase.map(({ fromPosition, toPosition }) => `${fromPosition}-${toPosition}`);
        const label = lengthText(all.at(i).settings.dropout!, ENGLISH);
        const found = rows
          .filter((row) => row.label === label && row.isPartial === score.dropouts.some(({ silent }) => !silent))
          .map((row) => row.silences.map(({ from, to }) => `${fractionText(from)}-${fractionText(to)}`));
        if (silencesOf(drill, ENGLISH).leftOut === 0) expect(found.length).toBeGreaterThan(0);
        for (const each of found) expect(each).toEqual(expected);
      }
    },
  );

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
