import { describe, expect, test } from "vitest";
import { stripChart } from "../../../../lib/render/chart/index.js";
import { INK } from "../../../../lib/render/chart/palette.js";
import { alikePhrases, phrasesOf } from "../../../../lib/render/chart/phrases.js";
import type { Score } from "../../../../lib/schema/index.js";
import { drillOf, jetty } from "../../../drill/material.js";
import { plainScore } from "../../../take/scores.js";
import { count, drillIn, FIRST, FLAG, LONG, letteringOf, scoreAt, WIND } from "../material.js";

/** A score with silences, in a mix of its own. */
const playingOn = (mix: Record<string, "plays" | "drops" | "off">): Score =>
  scoreAt(drillOf(jetty({ mixes: { own: mix } })));

const half = scoreAt(drillIn(FIRST, "half-bar"));

describe("alikePhrases()", () => {
  test("tells every phrase once, in order, and the outro apart", () => {
    for (const score of [half, scoreAt(drillIn(WIND, "tidewater-dropouts"), 35), LONG, plainScore()]) {
      const numbers = alikePhrases(score).flatMap(({ phrase, last }) =>
        Array.from({ length: last - phrase.number + 1 }, (_, i) => phrase.number + i),
      );
      expect(numbers).toEqual(phrasesOf(score).map(({ number }) => number));
    }
    expect(alikePhrases(half).map(({ phrase, last }) => [phrase.number, last, phrase.isOutro])).toEqual([
      [1, 4, false],
      [5, 5, true],
    ]);
  });

  test("a phrase with another note, silence or open bar is drawn on its own", () => {
    const third = half.bars.find(({ phrase }) => phrase === 3)!.at;
    const without: Score = { ...half, expected: half.expected.filter(({ at }) => Math.abs(at - third) > 1e-6) };
    const opened: Score = {
      ...half,
      open: [{ from: third, to: third + 1, bars: [9], scale: "D dorian", pitchClasses: [2], subdivision: 0.5 }],
    };
    const louder: Score = {
      ...half,
      dropouts: half.dropouts.map((each, i) => (i === 2 ? { ...each, parts: ["kit"] } : each)),
    };
    for (const score of [without, opened, louder]) {
      expect(alikePhrases(score).map(({ phrase, last }) => [phrase.number, last])).toEqual([
        [1, 2],
        [3, 3],
        [4, 4],
        [5, 5],
      ]);
    }
  });
});

describe("stripChart()", () => {
  const svg = stripChart(half);

  test("names every part that is heard, hatches each part that drops, and flags the landing", () => {
    const texts = letteringOf(svg).map(({ text }) => text);
    for (const part of ["kit", "bass", "you", "count", "outro"]) expect(texts).toContain(part);
    // Four alike phrases are drawn once, two parts drop in them; one more hatching and flag in the key.
    expect(count(svg, INK.hatch)).toBe(2 + 1);
    expect(count(svg, FLAG)).toBe(1 + 1);
    expect(svg).toContain("<title>Nothing sounds for half a bar, 4\u00a0times; back on the next downbeat.</title>");
  });

  test("draws a stroke for every onset expected in the phrases it draws", () => {
    // Strokes of the first phrase and the outro start at distinct pixels in this riff; the key has two more.
    const expected = half.expected.filter(({ bar }) => bar <= 4 || bar > 16).length;
    const strokes = [...svg.matchAll(/<path d="([^"]+)"[^>]*stroke="#0a5a78"/g)].reduce(
      (sum, [, d]) => sum + count(d!, "M"),
      0,
    );
    expect(strokes).toBe(expected + 2);
  });

  test("a mix in which a part plays on hatches only what falls silent, and says who", () => {
    const listen = scoreAt(drillIn(FIRST, "half-bar"), 0, "listen");
    expect(stripChart(listen)).toContain("<title>Bass and kit fall silent for half a bar");
  });

  test("a score without dropouts says that everything sounds", () => {
    expect(stripChart(scoreAt(drillIn(FIRST, "steady")))).toContain(
      "<title>Everything sounds from beginning to end.</title>",
    );
  });

  test("a mix in which every part plays on through the silences has none: no words, hatching, flag or key of one", () => {
    const svg = stripChart(playingOn({ kit: "plays", bass: "plays", lead: "plays" }));
    expect(svg).toContain("<title>Everything sounds from beginning to end.</title>");
    expect(svg).not.toMatch(/silent|landing|return/);
    expect(svg).not.toContain(FLAG);
    expect(svg).not.toContain(INK.hatch);
    expect(svg).not.toContain(INK.still);
    expect(stripChart(playingOn({ kit: "plays", bass: "off", lead: "off" }))).toContain(
      "<title>Kit sounds from beginning to end.</title>",
    );
  });

  test("where more parts fall silent as the take goes on, a phrase before the first of them has no silence", () => {
    const grown = playingOn({ kit: "drops", bass: "plays", lead: "off" });
    const dropouts = grown.dropouts.map((each, i) => (i === 0 ? { ...each, parts: [] } : each));
    expect(stripChart({ ...grown, dropouts })).toContain(
      "<title>Kit falls silent for half a bar, once; back on the downbeat.</title>",
    );
  });
});
