import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { random } from "../../../lib/base/index.js";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { demandOf, forecast, historyOf, posteriorOf } from "../../../lib/forecast/index.js";
import { stripChart } from "../../../lib/render/index.js";
import { renderSound } from "../../../lib/render/sound/index.js";
import type { JournalEvent, Score } from "../../../lib/schema/index.js";
import { must } from "../../time/shorthand.js";
import { saidBy } from "../said.js";

const COURSE = `
curriculum: quayside-growing
edition: 1.0.0
title: Out and back
patterns:
  pier:
    meter: 4/4
    bars: 4
    key: D dorian
    parts:
      kit: { voices: { hat: x-x-x-x- | ..., snare: --x---x- | ..., kick: x---x--- | ... } }
      lead: { notes: "1/4 D4 F4 1/8 G4 F4 1/4 D4 | ..." }
drills:
  out:
    pattern: pier
    student: lead
    dropout: { grows: { from: 1/2 bar, by: 1/2 bar, each: 2 phrases }, parts: [kit] }
    ladders: [ { grows: [1 bar, 1 1/2 bars, 2 bars] } ]
    tempo: 80
    mixes: { play: { lead: off } }
    tolerance: { drift: 5 %, landing: 150 ms }
    gate: { clean: 2, of: 3 }
`;
const folder = mkdtempSync(join(tmpdir(), "leeway-growing-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));
const file = join(folder, "course.yaml");
const store = join(folder, "journals.db");
writeFileSync(file, COURSE);
const read = readCurriculum(COURSE, { file, readFile: () => undefined });
if (!read.ok) throw new Error(read.problems[0]!.message);
const drill = read.value.drills[0]!;

/** Milliseconds that a note of the simulated student scatters about the beat, and the seconds a beat has. */
const SCATTER = 10;
const BEAT = 60 / 80;
/** Per cent of the silence by which the student rushes, by its length in beats: the longest alone is too much. */
const RUSHES: Readonly<Record<number, number>> = { 2: 0, 4: 1, 6: 2, 8: 8.5 };

function played(score: Score, seed: number): object {
  const { normal } = random(seed);
  const early = (at: number): number => {
    const silence = score.dropouts.find(({ from, to }) => at > from - 1e-6 && at <= to + 1e-6);
    if (silence === undefined) return 0;
    return ((at - silence.from) * RUSHES[Math.round((silence.to - silence.from) / BEAT)]!) / 100;
  };
  const onsets = score.expected.map(({ at }) => ({ at: at - early(at) + (SCATTER / 1000) * normal() }));
  return { version: 1, zero: "bar-1", id: `take-${seed}`, onsets };
}

const takes = [1, 1, 3, 3, 3].map((rung, i) => {
  const path = join(folder, `take-${i + 1}.json`);
  writeFileSync(path, JSON.stringify(played(scoreOf(rungs(drill).at(rung - 1)), i + 1)));
  return { rung: String(rung), path };
});

/** The silence of each phrase on the third rung, in beats, worked out by hand: half a bar more after every two phrases. */
const BEATS = [2, 2, 4, 4, 6, 6, 8, 8];

describe("a take whose silences grow, on paper and in sound", () => {
  const score = scoreOf(rungs(drill).at(2), "play");

  test("the strip of the rung has a longer silence after every two phrases", async () => {
    const { out } = await saidBy(["score", file, "out", "3"]);
    expect(out).toContain("silence 1/2 bar growing to 2 bars");
    const rows = [...out.matchAll(/phrase \d+ +│(.*)│$/gm)].map(([, row]) => row!.replaceAll("│", ""));
    const silent = rows.map((row) => (16 * (row.match(/[·]/g)?.length ?? 0)) / row.length);
    expect(silent).toEqual(BEATS);
  });

  test("the chart of the rung draws silences of two, four, six and eight beats, each as wide as it is long", () => {
    const hatched = [...stripChart(score).matchAll(/<rect [^>]*width="([\d.]+)" height="15" fill="#e9eff0"/g)];
    const widths = hatched.map(([, width]) => Number(width));
    // Drawn to a hundredth of a pixel; phrases that are alike share a row.
    for (const [i, width] of widths.entries()) expect(width).toBeCloseTo(widths[0]! * (i + 1), 1);
    expect(widths).toHaveLength(4);
  });

  test("in sound the band is gone for exactly these beats, and is there again on the downbeat", () => {
    const rate = 44_100;
    const { channels, downbeat } = must(renderSound(score, { rate }));
    const loudest = (from: number, to: number): number => {
      let most = 0;
      for (const channel of channels)
        for (let i = downbeat + Math.round(from * rate); i < downbeat + Math.round(to * rate); i++)
          most = Math.max(most, Math.abs(channel[i]!));
      return most;
    };
    BEATS.forEach((beats, phrase) => {
      const landing = 16 * (phrase + 1) * BEAT;
      const gone = landing - beats * BEAT;
      // The fade at the edge takes 4 ms.
      expect(loudest(gone - BEAT, gone - 0.01)).toBeGreaterThan(0.01);
      expect(loudest(gone + 0.005, landing - 0.001)).toBe(0);
      expect(loudest(landing, landing + 0.02)).toBeGreaterThan(0.01);
    });
  });
});

describe("takes whose silences grow, from the command line, from the first take to the report", () => {
  const submitted: string[] = [];
  beforeAll(async () => {
    await saidBy(["enrol", file, "tern", "--store", store, "--at", "2026-03-02T17:00:00Z"]);
    for (const [i, { rung, path }] of takes.entries()) {
      const at = `2026-03-0${2 + i}T18:00:00Z`;
      submitted.push((await saidBy(["submit", "tern", path, "--store", store, "--rung", rung, "--at", at])).out);
    }
  });

  test("each silence is told by itself: those that held are within, the longest two are beyond", () => {
    const verdicts = (said: string): readonly string[] =>
      [...said.matchAll(/phrase \d .*│ {2}(\w+)/g)].map(([, word]) => word!);
    expect(verdicts(submitted[0]!)).toEqual(Array(8).fill("within"));
    for (const said of submitted.slice(2)) {
      expect(verdicts(said)).toEqual([...Array(6).fill("within"), "beyond", "beyond"]);
      expect(said).toContain("after 2 bars of silence");
    }
  });

  test("two clean takes of three meet the gate, and takes beyond hold the student", () => {
    expect(submitted[1]).toContain("advance: ");
    expect(submitted[4]).toContain("hold: ");
  });

  test("the report lists drift by length, each as it was played", async () => {
    const { out } = await saidBy(["report", "--store", store, "--json", "--at", "2026-03-09T18:00:00Z"]);
    const { drift } = JSON.parse(out) as {
      drift: readonly { length: string; takes: number; measured: number; driftPercent: { median: number } }[];
    };
    expect(drift.map(({ length, takes, measured }) => [length, takes, measured])).toEqual([
      ["1/2 bar", 5, 10],
      ["1 bar", 5, 18],
      ["1 1/2 bars", 3, 6],
      ["2 bars", 3, 6],
    ]);
    // Two ends of a silence, each known to a note's scatter, in per cent of its length; the median of six or more.
    drift.forEach(({ driftPercent }, i) => {
      const beats = 2 * (i + 1);
      const error = (100 * SCATTER * Math.SQRT2) / (1000 * BEAT * beats);
      expect(Math.abs(driftPercent.median + RUSHES[beats]!)).toBeLessThan(2 * error);
    });
  });

  test("the plan names the range that comes next", async () => {
    const words = ["plan", "tern", "--store", store, "--minutes", "20", "--today", "2026-03-07"];
    const { out } = await saidBy(words);
    expect(out).toContain("silence 1/2 bar growing to 1 1/2 bars");
    expect(out).toContain("then on to silence 1/2 bar growing to 2 bars");
  });

  test("the forecast tells the ranges apart: the longer they grow, the less likely a clean take", async () => {
    const { out } = await saidBy(["journal", "export", "tern", "--store", store]);
    const events = out.split("\n").flatMap((line) => (line === "" ? [] : [JSON.parse(line) as JournalEvent]));
    const belief = posteriorOf(read.value, historyOf(events));
    const chances = [0, 1, 2].map((rung) => forecast(belief, demandOf(scoreOf(rungs(drill).at(rung)))).clean);
    console.log(`chances of a clean take up to 1, 1 1/2 and 2 bars: ${chances.map((each) => each.toFixed(2))}`);
    expect(belief.takes).toBe(5);
    expect(chances[0]!).toBeGreaterThan(chances[1]!);
    expect(chances[1]!).toBeGreaterThan(chances[2]!);
    // How low the last one is depends on the prior: three takes beyond of a length at which nothing else was heard leave it near one half.
  });
});
