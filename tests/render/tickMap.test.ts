import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fraction, toNumber } from "../../lib/base/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { clicksOf, tickMap } from "../../lib/render/index.js";
import { exactly } from "../../lib/render/scoreTime.js";
import type { Score } from "../../lib/schema/index.js";
import { drillOf, jetty, patterns } from "../drill/material.js";
import { drills } from "./courses.js";

const scoreFor = (pattern: string, changes: Parameters<typeof jetty>[0] = {}): Score =>
  scoreOf(rungs(drillOf(jetty({ pattern, tolerance: {}, dropout: undefined, variant: undefined, ...changes }))).at(0));
/** Half a tick, and the nanosecond a score's seconds are rounded to. */
const furthest = (score: Score): number => {
  const ticks = tickMap(score);
  return (ticks.bound * 60) / (ticks.perQuarter * ticks.tempi[0]!.quarters) + 1e-9;
};

describe("tickMap()", () => {
  test("puts every note of every shipped drill at the second its score states", () => {
    for (const [name, drill] of drills) {
      const all = rungs(drill);
      const score = scoreOf(all.at(all.count - 1));
      const ticks = tickMap(score);
      expect(ticks.isExact, name).toBe(true);
      const notes = [...score.expected, ...score.parts.flatMap((part) => part.notes)];
      const apart = (at: number, tick: number): number => Math.abs(ticks.seconds(tick) - at);
      const sounding = notes.map(({ at, position }) => apart(at, ticks.sounding(exactly(position))));
      const straight = score.bars.map(({ at, position }) => apart(at, ticks.straight(exactly(position))));
      expect(Math.max(...sounding, ...straight), name).toBeLessThan(furthest(score));
    }
  });

  test("is the smallest multiple of 480 that is exact: 480 with swing 2:1, 3360 with septuplets", () => {
    expect(tickMap(scoreFor("shuffle"))).toMatchObject({ perQuarter: 480, isExact: true, bound: 0 });
    const [first] = scoreFor("jetty", { variant: "plain" }).parts;
    const score = scoreFor("jetty", { variant: "plain" });
    const sevenths = { ...first!, notes: [{ position: "1/28", length: "1/28", at: 0, seconds: 0, pitch: "D4" }] };
    expect(tickMap({ ...score, parts: [sevenths] })).toMatchObject({ perQuarter: 3360, isExact: true });
  });

  test("rounds by half a tick at most where no resolution below 16384 is exact", () => {
    const uneven = { ...patterns.shuffle!, swing: { subdivision: fraction(1, 8), first: 809, second: 500 } };
    const drill = drillOf(jetty({ pattern: "shuffle", tolerance: {}, dropout: undefined, variant: undefined }));
    const score = scoreOf(rungs({ ...drill, pattern: uneven }).at(0));
    const ticks = tickMap(score);
    expect(ticks).toMatchObject({ perQuarter: 15360, isExact: false, bound: 0.5 });
    for (const { at, position } of score.expected)
      expect(Math.abs(ticks.seconds(ticks.sounding(exactly(position))) - at)).toBeLessThan(furthest(score));
  });

  test("swings notes and leaves bar lines and clicks straight: the second eighth at 2:1 lies a sixth of a whole note in", () => {
    const ticks = tickMap(scoreFor("shuffle", { "count-in": "1 bar" }));
    expect(ticks.sounding(fraction(1, 8)) - ticks.straight(fraction(0))).toBe((4 * 480) / 6);
    expect(ticks.straight(fraction(1, 8)) - ticks.straight(fraction(0))).toBe((4 * 480) / 8);
  });

  test("begins with the count-in, or with a pick-up that is longer", () => {
    expect(tickMap(scoreFor("shuffle", { "count-in": "1 bar" })).leadIn).toEqual(fraction(1));
    const score = scoreFor("shuffle", { "count-in": "1 bar" });
    expect(tickMap({ ...score, countIn: 0 }).leadIn).toEqual(fraction(1, 4));
    expect(tickMap({ ...score, countIn: 0 }).sounding(fraction(-1, 4))).toBe(0);
  });

  test("counts quarters whatever the beat: 60 dotted quarters are 90 (MusicXML 4.0, sound tempo)", () => {
    expect(tickMap(scoreFor("swell", { tempo: 60 })).tempi[0]!.quarters).toBe(90);
  });

  test("refuses a score without bars, as a programmer's error", () => {
    expect(() => tickMap({ ...scoreFor("swell"), bars: [] })).toThrow(RangeError);
  });
});

describe("clicksOf()", () => {
  test("counts beats from the start of the count-in, the first of each bar apart", () => {
    const clicks = clicksOf(scoreFor("jetty", { variant: "plain", "count-in": "2 bars" }));
    expect(clicks.map(({ position }) => toNumber(position))).toEqual([-2, -1.75, -1.5, -1.25, -1, -0.75, -0.5, -0.25]);
    expect(clicks.map(({ isDownbeat }) => isDownbeat)).toEqual([true, false, false, false, true, false, false, false]);
  });

  test("counts a compound bar in its dotted beats, and 7/8 with a beat of a quarter in its groups", () => {
    expect(clicksOf(scoreFor("swell", { "count-in": "1 bar" })).map(({ position }) => toNumber(position))).toEqual([
      -0.75, -0.375,
    ]);
    const sevens = drills.find(([name]) => name === "sevens-dropouts")![1];
    const clicks = clicksOf(scoreOf(rungs(sevens).at(0)));
    expect(clicks.map(({ position }) => toNumber(position))).toEqual([-0.875, -0.625, -0.375]);
  });

  test("has none without a count-in, and never one before it", () => {
    fc.assert(
      fc.property(fc.constantFrom(...drills), ([, drill]) => {
        const score = scoreOf(rungs(drill).at(0));
        const ticks = tickMap(score);
        for (const { position } of clicksOf(score)) expect(ticks.straight(position)).toBeGreaterThanOrEqual(0);
        expect(clicksOf({ ...score, countIn: 0 })).toEqual([]);
      }),
    );
  });
});
