import { describe, expect, test } from "vitest";
import { type Drill, rungs, scoreOf } from "../../../lib/drill/index.js";
import { barAt, stripUnder } from "../../../lib/render/film/index.js";
import type { PictureBar } from "../../../lib/render/sheet/index.js";
import { SHIPPED } from "../sheet/material.js";

const DRILLS = SHIPPED.flatMap(({ drills }) => drills);

/** Each bar of the riff 100 wide, one beside the other. */
function besideEachOther({ pattern: { bars } }: Drill): readonly PictureBar[] {
  return bars.map((_, i) => ({
    bar: i + 1,
    top: 0,
    bottom: 40,
    anchors: [[0, 100 * i] as const, [1, 100 * (i + 1)] as const],
  }));
}

describe("places along an engraved riff", () => {
  test("are there for every bar of every take, each phrase beginning again at bar 1, the outro too", () => {
    expect(DRILLS.some(({ phrases, outro }) => phrases > 1 && outro !== undefined)).toBe(true);
    for (const drill of DRILLS) {
      const score = scoreOf(rungs(drill).at(0));
      const bars = besideEachOther(drill);
      for (const [i, { at }] of score.bars.entries())
        expect(barAt(score, bars, at)?.x(at), `${drill.name}, bar ${i + 1}`).toBe(100 * (i % bars.length));
    }
  });

  test("hold the whole of each silence, in the phrases that it reaches over", () => {
    for (const drill of DRILLS) {
      const score = scoreOf(rungs(drill).at(0));
      const bars = besideEachOther(drill);
      const phrases = new Set(score.bars.map(({ phrase }) => phrase));
      const strips = [...phrases].flatMap((phrase) => stripUnder(score, bars, phrase));
      // Bars are 100 wide and share their seconds evenly, so that widths add up to bars.
      const drawn = strips.flatMap(({ silent }) => silent).reduce((sum, { width }) => sum + width, 0);
      const held = score.dropouts.reduce((sum, { from, to }) => {
        const shares = score.bars.map(({ at }, i) => {
          const end = score.bars[i + 1]?.at ?? score.duration;
          return Math.max(0, Math.min(end, to) - Math.max(at, from)) / (end - at);
        });
        return sum + 100 * shares.reduce((a, b) => a + b, 0);
      }, 0);
      expect(drawn, drill.name).toBeCloseTo(held, 3);
      const landings = score.dropouts.filter(({ landing }) => landing !== null && landing <= score.duration + 1e-6);
      expect(strips.flatMap((strip) => strip.landings)).toHaveLength(landings.length);
    }
  });
});
