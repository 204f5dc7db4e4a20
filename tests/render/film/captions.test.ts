import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { captionsText, filmChapters } from "../../../lib/render/film/index.js";
import { barOfRiff } from "../../../lib/render/film/riffPlaces.js";
import type { Score } from "../../../lib/schema/index.js";
import { loadWords } from "../../../lib/words/index.js";
import { COURSE } from "../../cli/publish/published.js";
import { course, SHIPPED } from "../sheet/material.js";

const english = await wordsOf("en");
const german = await wordsOf("de");

async function wordsOf(tag: string) {
  const loaded = await loadWords(tag);
  if (!loaded.ok) throw new Error(`no words for ${tag}`);
  return loaded.value;
}

function ms(seconds: number): number {
  return Math.round(1000 * seconds);
}

interface Cue {
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/** Reads a WebVTT file by its grammar (W3C, WebVTT, 4.1): the signature, then blocks with an empty line between; a block with an arrow is a cue. */
function cuesIn(text: string): readonly Cue[] {
  const [signature, ...blocks] = text.split(/\n\n+/);
  expect(signature).toBe("WEBVTT");
  return blocks
    .filter((block) => block.includes("-->"))
    .map((block) => {
      const [times, ...lines] = block.trimEnd().split("\n");
      const match = /^(\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3}) --> (\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3})$/.exec(times!)!;
      const [from, to] = [match.slice(1, 5), match.slice(5)].map(
        ([h, m, s, ms]) => 3600 * Number(h) + 60 * Number(m) + Number(s) + Number(ms) / 1000,
      ) as [number, number];
      return { from, to, lines };
    });
}

const anyScore: fc.Arbitrary<Score> = fc
  .constantFrom(...SHIPPED.flatMap(({ drills }) => drills))
  .chain((drill) =>
    fc
      .record({ index: fc.nat(rungs(drill).count - 1), mix: fc.constantFrom(...drill.mixes) })
      .map(({ index, mix }) => scoreOf(rungs(drill).at(index), mix.name)),
  );
const LEAD = 2.3;

describe("captions of a film", () => {
  test("neither come nor go in a silence, and follow one another", () => {
    fc.assert(
      fc.property(anyScore, (score) => {
        const cues = cuesIn(captionsText(score, { lead: LEAD, words: english }));
        expect(cues).toHaveLength(score.dropouts.length + (score.countIn > 0 ? 1 : 0));
        for (const [i, { from, to }] of cues.entries()) {
          expect(from).toBeLessThan(to);
          expect(from).toBeGreaterThanOrEqual((cues[i - 1]?.to ?? 0) - 0.001);
          // A time stamp has thousandths.
          for (const at of [from, to])
            for (const silence of score.dropouts)
              expect(at > LEAD + silence.from + 0.001 && at < LEAD + silence.to - 0.001).toBe(false);
        }
      }),
    );
  });

  test("say in the language of the course who falls silent, when they return, and to play on", () => {
    const [drill] = course(COURSE).drills;
    const text = captionsText(scoreOf(rungs(drill!).at(0), "play"), { lead: 1.85, words: german });
    // By hand: four bars of 1.6 s at tempo 150, the second bar of each phrase silent, after a count-in.
    expect(cuesIn(text)).toEqual([
      { from: 0, to: 1.85, lines: ["Einzähler von 4 Schlägen."] },
      {
        from: 1.85,
        to: 5.05,
        lines: ["Nichts klingt von Takt 2, Schlag 1 bis Takt 1, Schlag 1 (Phrase 2).", "Spiel hindurch."],
      },
      {
        from: 5.05,
        to: 8.25,
        lines: ["Nichts klingt von Takt 2, Schlag 1 bis Takt 1, Schlag 1 (Schluss).", "Spiel hindurch."],
      },
    ]);
    expect(text).toContain("NOTE\nSpiel nicht lauter ab");
    const shown = cuesIn(captionsText(scoreOf(rungs(drill!).at(0), "listen"), { lead: 1.85, words: german }));
    expect(shown[1]!.lines).toEqual([
      "kit still von Takt 2, Schlag 1 bis Takt 1, Schlag 1 (Phrase 2).",
      "Die Vorführung spielt hindurch.",
    ]);
  });

  test("number bars as the sheet of the film does, from 1 in every phrase", () => {
    fc.assert(
      fc.property(anyScore, (score) => {
        const riff = score.bars.filter(({ phrase }) => phrase === 1);
        const numbers = [...captionsText(score, { lead: LEAD, words: english }).matchAll(/bar (\d+), beat/g)];
        for (const [, number] of numbers) {
          expect(Number(number)).toBeGreaterThanOrEqual(1);
          expect(Number(number)).toBeLessThanOrEqual(riff.length);
        }
        // A silence that ends on a downbeat ends on the bar that the mark stands on when it is over.
        for (const [i, { to, landing }] of score.dropouts.entries()) {
          if (landing === null) continue;
          const shown = barOfRiff(score, to)!;
          expect(Number(numbers[2 * i + 1]![1])).toBe(shown.number);
        }
      }),
    );
  });

  test("escape what would be markup in the name of a part", () => {
    const [drill] = course(COURSE).drills;
    const score = scoreOf(rungs(drill!).at(0), "listen");
    const named = {
      ...score,
      dropouts: score.dropouts.map((each) => ({ ...each, silent: false, parts: ["<b> & co"] })),
    };
    expect(captionsText(named, { lead: 0, words: english })).toContain("&lt;b&gt; &amp; co silent from");
  });
});

describe("chapters of a film", () => {
  test("are the count-in, each phrase and the outro, without a gap", () => {
    const [drill] = course(COURSE).drills;
    const score = scoreOf(rungs(drill!).at(0), "play");
    const chapters = filmChapters(score, { lead: 1.75, length: 10.5, words: english });
    expect(chapters.map(({ to }, i) => to === (chapters[i + 1]?.from ?? 10.5))).not.toContain(false);
    expect(chapters.map((each) => ({ ...each, from: ms(each.from), to: ms(each.to) }))).toEqual([
      { title: "Count-in", from: 0, to: 1750 },
      { title: "Phrase 1", from: 1750, to: 4950 },
      { title: "Phrase 2", from: 4950, to: 8150 },
      { title: "Outro", from: 8150, to: 10_500 },
    ]);
  });
});
