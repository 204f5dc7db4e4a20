import { describe, expect, test } from "vitest";
import { rungs } from "../../../../lib/drill/index.js";
import { ladderChart } from "../../../../lib/render/chart/index.js";
import { lanesOf } from "../../../../lib/render/chart/rung/ladderLanes.js";
import { drillIn, FIRST, HUGE, WIND } from "../material.js";

describe("lanesOf()", () => {
  test("with a column for each rung, shows every ladder's value on every rung", () => {
    for (const drill of [...FIRST.drills, ...WIND.drills]) {
      const all = rungs(drill);
      lanesOf(drill, all.count).forEach((lane, i) => {
        const { parameter } = drill.ladders[i]!;
        const values = Array.from({ length: all.count }, (_, index) => all.at(index).settings[parameter]);
        // Equal steps on equal values, and only there.
        const named = new Map(lane.steps!.map((step, index) => [step, values[index]]));
        expect(lane.steps!.map((step) => named.get(step))).toEqual(values);
        expect(new Set(named.values()).size).toBe(named.size);
      });
    }
  });

  test("of 701 299 000 rungs, only the ladder slow enough for the columns is drawn in steps, and it never falls", () => {
    const lanes = lanesOf(HUGE, 300);
    expect(lanes.map(({ steps }) => steps !== undefined)).toEqual([false, false, true]);
    const slow = lanes[2]!.steps!;
    expect(slow.length).toBe(300);
    for (let i = 1; i < slow.length; i++) expect(slow[i]).toBeGreaterThanOrEqual(slow[i - 1]!);
    expect(lanes[0]!.rounds).toBe(Math.round(rungs(HUGE).count / 1000));
  });
});

describe("ladderChart()", () => {
  const drill = drillIn(FIRST, "two-bars");

  test("says what comes next, and is the same by index and by settings", () => {
    const byIndex = ladderChart(drill, { at: 2 });
    expect(byIndex).toContain("<title>3\u00a0rungs to go; next: silence 2 bars.</title>");
    expect(ladderChart(drill, { at: "dropout=1 1/2 bars,parts=bass+kit,tempo=84,variant=plain" })).toBe(byIndex);
    expect(ladderChart(drill, { at: 5 })).toContain("<title>On the top rung of 6: Two bars of silence.</title>");
  });

  test.each([-1, 6, 0.5, "tempo=1", "nonsense"])("refuses %s, which is no rung of the drill", (at) => {
    expect(() => ladderChart(drill, { at })).toThrow(RangeError);
  });
});
