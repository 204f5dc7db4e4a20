import { describe, expect, test } from "vitest";
import { PLAYERS, playTake } from "../../../../lib/rehearsal/index.js";
import { takeChart, textTake } from "../../../../lib/render/chart/index.js";
import { INK } from "../../../../lib/render/chart/palette.js";
import { escapeText } from "../../../../lib/render/chart/svg.js";
import { bandIn, takeRows } from "../../../../lib/render/chart/take/rows.js";
import { assess, traceTake } from "../../../../lib/take/index.js";
import { plainScore, slowerInSilence, takeOf } from "../../../take/scores.js";
import { count, drillIn, FIRST, FLAG, LONG, letteringOf, scoreAt } from "../material.js";

const half = scoreAt(drillIn(FIRST, "half-bar"));

describe("takeChart()", () => {
  const score = plainScore({ tolerance: { driftPercent: 4, landingMs: 60 } });
  const take = takeOf(score, slowerInSilence(score, 0.03));
  const finding = assess(score, take);
  const svg = takeChart(score, take, finding);
  /** Centres of the notes drawn. */
  const notes = (text: string): [number, number][] =>
    [...text.matchAll(/M([\d.]+) ([\d.]+)a2 2/g)].map(([, x, y]) => [Number(x) + 2, Number(y)]);

  test("titles itself with the finding's sentence", () => {
    expect(svg).toContain(`<title>${escapeText(finding.sentence)}</title>`);
  });

  test("has a note for every pair, to the right with time, and up where it is late", () => {
    const drawn = notes(svg);
    expect(drawn.length).toBe(finding.pairs.length);
    drawn.forEach(([x, y], i) => {
      if (i > 0 && score.expected[i]!.at - score.expected[i - 1]!.at > 0.1) expect(x).toBeGreaterThan(drawn[i - 1]![0]);
      const late = 1000 * ((take.onsets[i] as number) - score.expected[i]!.at);
      // The whole drawing is moved down by its heading; within a row the order of heights is that of lateness.
      const other = drawn.findIndex(([, oy]) => oy !== y);
      const otherLate = 1000 * ((take.onsets[other] as number) - score.expected[other]!.at);
      if (Math.abs(late - otherLate) > 10) expect(Math.sign(y - drawn[other]![1])).toBe(Math.sign(otherLate - late));
    });
  });

  test("hatches each silence and flags each landing", () => {
    expect(count(svg, INK.hatch)).toBe(score.dropouts.length + 1);
    expect(count(svg, FLAG)).toBe(score.dropouts.length + 1);
  });

  test("marks what was left out and what was added, each once", () => {
    const played = takeOf(score, (at) => at).onsets as number[];
    const onsets = [...played.filter((_, i) => i !== 5 && i !== 9), 0.77, 3.31].sort((a, b) => a - b);
    const other = { onsets, zero: "bar-1" as const };
    const found = assess(score, other);
    expect([found.missed.length, found.added.length]).toEqual([2, 2]);
    const drawing = takeChart(score, other, found);
    // One more of each in the key.
    expect(count(drawing, "h5v5h-5z")).toBe(2 + 1);
    expect(count(drawing, "v6")).toBeGreaterThanOrEqual(2 + 1);
    const texts = letteringOf(drawing).map(({ text }) => text);
    expect(texts.filter((text) => text === "left out").length).toBe(2);
    expect(texts.filter((text) => text === "added").length).toBe(2);
  });

  test("says below the row which landing was left out, and by how much the player slipped at one", () => {
    const landing = score.dropouts[1]!.to;
    const without = takeOf(score).onsets.filter((at) => at !== landing) as number[];
    const gap = { onsets: without, zero: "bar-1" as const };
    const texts = letteringOf(takeChart(score, gap, assess(score, gap))).map(({ text }) => text);
    // The lane of notes left out, the landing itself, and the key.
    expect(texts.filter((text) => text === "left out").length).toBe(3);
    expect(texts).toContain("landing");
    const from = score.dropouts[2]!.from + 0.6;
    const late = {
      onsets: score.expected.map(({ at }) => (at > from && at < from + 3 ? at + score.beat / 2 : at)),
      zero: "bar-1" as const,
    };
    const slipped = assess(score, late);
    expect(slipped.dropouts[2]!.slip?.beats).toBe(0.5);
    expect(letteringOf(takeChart(score, late, slipped)).map(({ text }) => text)).toContain("0.5 beats late");
    expect(textTake(score, slipped)).toContain("slipped 0.5 beats late");
  });

  test("says as text how much of a silence was played when it was too little", () => {
    const rested = takeOf(score).onsets.filter((at) =>
      score.dropouts.every(({ from, to }) => (at as number) < from + 0.1 || (at as number) > to - 0.1),
    );
    const finding = assess(score, { onsets: rested, zero: "bar-1" });
    expect(textTake(score, finding)).toContain("landed on the beat, played 1 of 4");
  });

  test("nothing is drawn outside the plot: a tolerance far beyond the play is cut", () => {
    const wide = { ...score, tolerance: { driftPercent: 90, landingMs: 5000 } };
    const drawing = takeChart(wide, take, assess(wide, take));
    const height = Number(/viewBox="0 0 \d+ (\d+)"/.exec(drawing)![1]);
    const dashed = [...drawing.matchAll(/<path d="([^"]+)"[^>]*dasharray="4 2.5"/g)].flatMap(([, d]) =>
      [...d!.matchAll(/[ML][\d.-]+ ([\d.-]+)/g)].map(([, y]) => Number(y)),
    );
    expect(dashed.length).toBeGreaterThan(0);
    for (const y of dashed) {
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThan(height);
    }
  });

  test("a take of hundreds of bars is drawn in six rows at most", () => {
    expect(takeRows(LONG, 300).length).toBeLessThanOrEqual(6);
    expect(takeRows(LONG, 300)[0]!.from).toBe(0);
    expect(takeRows(LONG, 300).at(-1)!.to).toBe(LONG.duration);
  });

  test.each([0, -15, 137])(
    "a take with every note off by %d ms is drawn to a scale on which that can be read",
    (ms) => {
      const even = scoreAt(drillIn(FIRST, "steady"));
      const off = { onsets: even.expected.map(({ at }) => at + ms / 1000), zero: "bar-1" as const };
      const lettered = letteringOf(takeChart(even, off, assess(even, off))).map(({ text }) => text);
      // The figures of the first row come before the numbers of its bars.
      const scale = lettered
        .slice(0, lettered.indexOf("bar"))
        .filter((text) => /^\d+$/.test(text))
        .map(Number);
      expect(scale.length).toBeGreaterThanOrEqual(4);
      // 30 ms either way and all that was played is shown, and rounding to even figures adds less than half of it again.
      for (const figure of scale) expect(Math.abs(figure)).toBeLessThanOrEqual(1.5 * Math.max(30, Math.abs(ms)));
    },
  );

  test("a finding of another take is refused", () => {
    expect(() => takeChart(score, { onsets: [] }, finding)).toThrow(RangeError);
  });
});

describe("bandIn()", () => {
  const trace = traceTake(half, playTake(half, PLAYERS.able, "band").take);

  test("rows that follow each other meet in the same point", () => {
    const [a, b] = [
      { from: 0, to: 7.3 },
      { from: 7.3, to: 20 },
    ].map((row) => bandIn(trace, row, 400));
    expect(a!.at(-1)!.at).toBeCloseTo(7.3, 9);
    expect(b![0]!.mean).toBeCloseTo(a!.at(-1)!.mean, 9);
    expect(b![0]!.high).toBeCloseTo(a!.at(-1)!.high, 9);
  });

  test("with few columns, has one point in each and keeps the widest of the band", () => {
    const thin = bandIn(trace, { from: 0, to: half.duration }, 10);
    expect(thin.length).toBeLessThanOrEqual(10);
    const all = bandIn(trace, { from: 0, to: half.duration }, 1e6);
    expect(Math.max(...thin.map(({ high }) => high))).toBe(Math.max(...all.map(({ high }) => high)));
    expect(Math.min(...thin.map(({ low }) => low))).toBe(Math.min(...all.map(({ low }) => low)));
  });
});
