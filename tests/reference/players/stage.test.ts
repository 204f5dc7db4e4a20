import { describe, expect, test } from "vitest";
import { materials, openMaterial } from "./materials.js";
import { stageOf } from "./stage.js";

const RUNGS = [...materials(), openMaterial()];
const SAME = 1e-6;

describe.each(RUNGS)("the stage of $name", ({ score }) => {
  const stage = stageOf(score);

  test("has every note at its time, and moments in order", () => {
    stage.note.forEach((place, note) => {
      expect(Math.abs(stage.at[place]! - score.expected[note]!.at)).toBeLessThan(SAME);
      expect(stage.noteAt[place]).toBe(note);
    });
    for (let place = 1; place < stage.at.length; place++) expect(stage.at[place]).toBeGreaterThan(stage.at[place - 1]!);
  });

  test("has no beat and no stroke in a silence, and one at every return", () => {
    for (const { from, to, landing } of stage.silences) {
      for (let place = from; place < to; place++) expect(stage.tick[place]! + stage.stroke[place]!).toBe(0);
      expect(stage.tick[to]).toBe(1);
      expect(stage.stroke[to]).toBe(1);
      // On all of these rungs a note is expected on the downbeat of the return.
      expect(stage.note[landing]).toBe(to);
    }
  });

  test("counts silences, their lengths and the tempo like the score", () => {
    expect(stage.silences.map(({ length }) => length)).toEqual(score.dropouts.map(({ from, to }) => to - from));
    expect(score.dropouts.every(({ silent }) => silent)).toBe(true);
    const ticks = [...stage.at.keys()].filter((place) => stage.tick[place] === 1).map((place) => stage.at[place]!);
    const heard = score.audible.reduce((sum, { from, to }) => sum + to - from, 0);
    // One tick a beat where something sounds; seven eighths have their last beat half as long again.
    expect(ticks.length).toBeLessThanOrEqual(Math.ceil(heard / score.beat + score.audible.length));
    expect(ticks.length).toBeGreaterThanOrEqual(Math.floor((heard / score.beat) * (3 / 3.5)) - score.audible.length);
  });
});
