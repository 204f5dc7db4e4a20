import { expect, test } from "vitest";
import { improvised } from "./improvised.js";
import { luckOf } from "./luck.js";
import { materials, openMaterial } from "./materials.js";

test("an improvised line lies on the subdivisions of the open bars, in the scale, in its bar, and leaves the riff as it is", () => {
  const { score } = openMaterial();
  const places = score.open.flatMap(
    ({ grid, from, to, subdivision }) =>
      grid ?? Array.from({ length: Math.round((to - from) / subdivision) }, (_, k) => from + k * subdivision),
  );
  const lines = Array.from({ length: 20 }, (_, take) => improvised(score, luckOf(take)).expected);
  for (const line of lines) {
    const added = line.filter((note) => !score.expected.includes(note));
    expect(line.filter((note) => score.expected.includes(note))).toEqual(score.expected);
    for (const { at, bar, pitch } of added) {
      expect(places).toContain(at);
      expect(score.open.flatMap(({ bars }) => bars)).toContain(bar);
      // F major pentatonic: the scale the drill names.
      expect(["F4", "G4", "A4", "C4", "D4"]).toContain(pitch);
    }
  }
  const share = lines.flat().length / lines.length - score.expected.length;
  expect(Math.abs(share / places.length - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / (20 * places.length)));
});

test("a score without open bars is left as it is", () => {
  const { score } = materials()[0]!;
  expect(improvised(score, luckOf(1)).expected).toEqual(score.expected);
});
