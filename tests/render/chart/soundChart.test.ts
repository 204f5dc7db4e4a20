import { describe, expect, test } from "vitest";
import { soundChart } from "../../../lib/render/chart/index.js";
import { INK } from "../../../lib/render/chart/palette.js";
import { pictureOf } from "./material.js";

describe("soundChart()", () => {
  test("marks every onset once, as far along its row as it is in time", () => {
    // 20 s at 720 px are one row of 672 px that starts at 24.
    const onsets = [0, 5, 10, 19.5];
    const svg = soundChart({ ...pictureOf(20, 1), onsets });
    const marks = svg.match(new RegExp(`<path d="([^"]*)" fill="none" stroke="${INK.beyond}" stroke-width="2"/>`))![1]!;
    const places = [...marks.matchAll(/M([\d.]+) /g)].map(([, x]) => Number(x));
    expect(places).toEqual(onsets.map((at) => Math.round(2 * (24 + (672 * at) / 20)) / 2));
  });

  test("draws the envelope above a line, not mirrored below it, and as high for a sound that is louder below zero", () => {
    const picture = pictureOf(20, 1);
    const waveIn = (svg: string): string => svg.match(new RegExp(`<path d="([^"]*)" fill="${INK.hatch}"/>`))![1]!;
    const wave = waveIn(soundChart(picture));
    const foot = Number(/V([\d.]+)H/.exec(wave)![1]);
    const heights = Array.from(wave.matchAll(/[ML][\d.]+ ([\d.]+)/g), ([, y]) => Number(y));
    expect(heights).toHaveLength(673);
    expect(Math.max(...heights)).toBeLessThan(foot);
    // The loudest sample is drawn 0.96 of the height above the line.
    expect(Math.min(...heights)).toBeCloseTo(0.04 * foot, 1);
    const flipped = picture.peaks.map(([low, high]) => [-high, -low] as const);
    expect(waveIn(soundChart({ ...picture, peaks: flipped }))).toBe(wave);
  });

  test("has a row more when it is longer, and never more than six", () => {
    const rows = (seconds: number): number => soundChart(pictureOf(seconds, 1)).split("<g transform").length - 3;
    expect([10, 21, 45, 100, 5000].map(rows)).toEqual([1, 2, 3, 5, 6]);
  });

  test("says how many notes there are, when they begin, and what else to know", () => {
    const svg = soundChart(pictureOf(31.2, 0.5));
    expect(svg).toMatch(/<title>62\snotes heard in 31.2 s\.<\/title>/);
    expect(svg).toContain("The first begins at 0.00 s, the last at 30.50 s.");
    expect(svg).toContain("Listened to as blown.");
    expect(soundChart({ name: "x", seconds: 0, peaks: [], onsets: [], noiseMs: 0 })).toContain("No note heard in 0 s.");
  });

  test("does not draw what is no number", () => {
    expect(() => soundChart({ ...pictureOf(3, 1), onsets: [Number.NaN] })).toThrow(RangeError);
    expect(() => soundChart(pictureOf(3, 1), { width: 100 })).toThrow(RangeError);
  });
});
