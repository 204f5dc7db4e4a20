import { readFileSync } from "node:fs";
import { join } from "node:path";
import { XmlDocument, type XmlElement } from "libxml2-wasm";
import { random } from "../../../lib/base/index.js";
import { type Curriculum, readCurriculum } from "../../../lib/curriculum/index.js";
import { type Drill, rungs, scoreOf } from "../../../lib/drill/index.js";
import { beginJournal, decide, drillStanding } from "../../../lib/progress/index.js";
import { PLAYERS, playTake } from "../../../lib/rehearsal/index.js";
import {
  climbChart,
  driftChart,
  ladderChart,
  placesChart,
  reportChart,
  type SoundPicture,
  soundChart,
  stripChart,
  takeChart,
} from "../../../lib/render/chart/index.js";
import { widthOf } from "../../../lib/render/chart/lettering.js";
import { openReport } from "../../../lib/report/index.js";
import type {
  Finding,
  JournalEvent,
  LengthDrift,
  Report,
  Score,
  Take,
  Verdict,
  WeekDrift,
} from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { loadWords, type Words } from "../../../lib/words/index.js";
import { findingOf, timeOf } from "../../progress/course.js";
import { ROOT } from "../../sources.js";

function courseOf(name: string): Curriculum {
  const file = join(ROOT, "curricula", `${name}.yaml`);
  const read = readCurriculum(readFileSync(file, "utf8"), { file, readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

export const FIRST: Curriculum = courseOf("quayside-first-course");
const ODD: Curriculum = courseOf("quayside-odd-meters");
export const WIND: Curriculum = courseOf("quayside-wind-and-brass");

export function drillIn(course: Curriculum, name: string): Drill {
  return course.drills.find((drill) => drill.name === name)!;
}

export function scoreAt(drill: Drill, index = 0, mix?: string): Score {
  const score = scoreOf(rungs(drill).at(index), mix);
  return score as Score;
}

const terms = new Map<number, JournalEvent[]>();

/** A student's takes to the first course, four an evening, every other day or so. */
export function termOf(takes: number, within = 0.7): JournalEvent[] {
  const known = terms.get(takes);
  if (known !== undefined) return known;
  const chance = random(`term ${takes}`);
  const begun = beginJournal(FIRST, "tern", timeOf(0));
  let { standing } = begun;
  const journal = [...begun.events];
  for (let i = 0; i < takes; i++) {
    const drill = standing.drills.findLast(({ state }) => state === "open")?.drill ?? "two-bars";
    const drawn = chance.uniform();
    const verdict: Verdict = drawn < 0.05 ? "unclear" : drawn < 0.05 + within ? "within" : "beyond";
    const finding = findingOf(`t${i}`, drill, drillStanding(standing, drill)!.rung!, verdict);
    const decision = decide(FIRST, standing, finding, timeOf(Math.floor(i / 4) * 129_600 + (i % 4) * 400));
    standing = decision.standing;
    journal.push(...decision.events);
  }
  terms.set(takes, journal);
  return journal;
}

/** A drill of 701 299 000 rungs. */
export const HUGE: Drill = {
  ...drillIn(FIRST, "two-bars"),
  fixed: { parts: "bass+kit" },
  ladders: [
    {
      parameter: "tempo",
      count: 1000,
      restart: "bottom",
      values: { kind: "tempi", from: { n: 60, d: 1 }, by: { n: 1, d: 10 } },
    },
    {
      parameter: "dropout",
      count: 1000,
      restart: 700,
      values: { kind: "spans", from: { count: { n: 1, d: 1 }, unit: "bar" }, by: { n: 1, d: 1 } },
    },
    {
      parameter: "variant",
      count: 1000,
      restart: "bottom",
      values: { kind: "list", texts: Array.from({ length: 1000 }, (_, i) => `v${i}`) },
    },
  ],
} as Drill;

export const LONG: Score = scoreAt({ ...drillIn(FIRST, "half-bar"), phrases: 150 });

const assessed = new Map<Score, { take: Take; finding: Finding }>();

function takeChartOf(score: Score, player: keyof typeof PLAYERS, width: number, words: Words): string {
  let known = assessed.get(score);
  if (known === undefined) {
    const { take } = playTake(score, PLAYERS[player], `${score.drill} ${player}`);
    known = { take, finding: { ...assess(score, take), take: "2026-03-02-1" } };
    assessed.set(score, known);
  }
  return takeChart(score, known.take, known.finding, { width, words });
}

/** Drift over so many weeks in silences of each length, one of them as older journals tell it; some weeks are missing. */
function driftOver(weeks: number, deviation: number): readonly LengthDrift[] {
  const chance = random(`drift ${weeks}`);
  const lengths = ["1/2 bar", "1 bar", "1 1/2 bars", "2 bars"];
  return lengths.map((length, i): LengthDrift => {
    const rows = Array.from({ length: weeks }, (_, week): WeekDrift | undefined => {
      if (chance.uniform() < 0.2) return undefined;
      const median = Math.round(chance.normal() * deviation * 10) / 10;
      const half = Math.round(Math.abs(chance.normal()) * deviation * 10) / 10;
      const day = new Date(Date.UTC(2026, 0, 5 + 7 * week)).toISOString().slice(0, 10);
      const figures = { median, low: median - half, high: median + half };
      const measured = 1 + chance.below(2000);
      return { week: day, takes: measured, measured, unmeasured: 3, driftMs: figures, driftPercent: figures };
    });
    const told = rows.filter((row) => row !== undefined);
    const measured = told.reduce((sum, row) => sum + row.measured, 0);
    const all = told[0] === undefined ? {} : { driftMs: told[0].driftMs!, driftPercent: told[0].driftPercent! };
    const row = {
      told: i === 2 ? ("largest of a take" as const) : ("each silence" as const),
      takes: measured,
      measured,
    };
    return { length, ...row, unmeasured: 3 * told.length, ...all, weeks: told };
  });
}

/** Where so many students are, in the first course or in a drill of very many rungs. */
function placesOf(students: number, huge = false): Report {
  const chance = random(`places ${students}`);
  const drills = (huge ? [HUGE] : FIRST.drills).map((drill) => {
    const { count } = rungs(drill);
    const places = Array.from({ length: Math.min(count, 12) }, (_, i) => {
      const there = chance.below(Math.max(1, Math.ceil(students / 20)));
      return {
        rung: `rung ${i}`,
        number: 1 + Math.floor((i * count) / 12),
        students: there,
        stuck: chance.below(there + 1),
      };
    }).filter((place) => place.students > 0);
    return {
      drill: drill.name,
      title: drill.title ?? drill.name,
      rungs: count,
      complete: chance.below(students),
      places,
    };
  });
  const takes = { within: 10, beyond: 3, unclear: 1 };
  const course = { curriculum: FIRST.name, title: FIRST.title, students, stuck: 3, quiet: 2, takes, drills };
  const names = Array.from({ length: students }, (_, i) => ({ student: `s${i}`, courses: [] }));
  return { version: 2, at: timeOf(0), students: names, courses: [course], drift: driftOver(9, 3) };
}

function reportOfTerm(): Report {
  const report = openReport({ at: timeOf(86_400 * 80) });
  report.add({ student: "tern", curriculum: FIRST.name, events: termOf(120), courseOf: () => FIRST });
  return report.close();
}

/** A recording of notes that die away, one every `apart` seconds. */
export function pictureOf(seconds: number, apart: number): SoundPicture {
  const peaks = Array.from({ length: seconds * 100 }, (_, i) => {
    const loud = 0.3 * Math.exp(-4 * ((i / 100) % apart));
    return [-0.9 * loud, loud] as const;
  });
  const onsets = Array.from({ length: Math.floor(seconds / apart) }, (_, i) => i * apart + 0.003);
  const advice = ["Listened to as blown.", "It is named dockside.wav, and is MP3 inside."];
  return { name: "dockside.wav", seconds, peaks, onsets, noiseMs: 2.4, advice };
}

const WORDED_CHARTS: Readonly<Record<string, (width: number, words: Words) => string>> = {
  "strip of half a bar": (width, words) => stripChart(scoreAt(drillIn(FIRST, "half-bar")), { width, words }),
  "strip of a steady drill": (width, words) => stripChart(scoreAt(drillIn(FIRST, "steady")), { width, words }),
  "strip of seven eighths": (width, words) =>
    stripChart(scoreAt(drillIn(ODD, "sevens-dropouts"), 3, "listen"), { width, words }),
  "strip with open bars": (width, words) => stripChart(scoreAt(drillIn(WIND, "tidewater-open"), 8), { width, words }),
  "strip with silences anywhere": (width, words) =>
    stripChart(scoreAt(drillIn(WIND, "tidewater-dropouts"), 35), { width, words }),
  "strip of a long take": (width, words) => stripChart(LONG, { width, words }),
  "ladder of two": (width, words) => ladderChart(drillIn(FIRST, "two-bars"), { width, words, at: 3 }),
  "ladder of four, nobody on it": (width, words) => ladderChart(drillIn(WIND, "tidewater-dropouts"), { width, words }),
  "ladder at its bottom": (width, words) => ladderChart(drillIn(WIND, "lantern-dropouts"), { width, words, at: 0 }),
  "ladder at its top": (width, words) => ladderChart(drillIn(FIRST, "half-bar"), { width, words, at: 2 }),
  "ladder of 701 299 000 rungs": (width, words) => ladderChart(HUGE, { width, words, at: 123_456_789 }),
  "ladder of one rung": (width, words) =>
    ladderChart(
      {
        ...drillIn(FIRST, "half-bar"),
        ladders: [],
        fixed: { tempo: "76", dropout: "1/2 bar", parts: "bass+kit", variant: "plain" },
      },
      { width, words, at: 0 },
    ),
  "take of an able player": (width, words) => takeChartOf(scoreAt(drillIn(FIRST, "half-bar")), "able", width, words),
  "take of a wild player": (width, words) => takeChartOf(scoreAt(drillIn(FIRST, "two-bars"), 5), "wild", width, words),
  "take with open bars": (width, words) =>
    takeChartOf(scoreAt(drillIn(WIND, "tidewater-open"), 8), "novice", width, words),
  "take of a steady drill": (width, words) => takeChartOf(scoreAt(drillIn(FIRST, "steady")), "novice", width, words),
  "take of 601 bars": (width, words) => takeChartOf(LONG, "novice", width, words),
  "empty take": (width, words) => {
    const score = scoreAt(drillIn(FIRST, "half-bar"));
    return takeChart(score, { onsets: [] }, assess(score, { onsets: [] }), { width, words });
  },
  "recording of a take": (width, words) => soundChart(pictureOf(31.2, 0.5), { width, words }),
  "recording of a minute": (width, words) => soundChart(pictureOf(75, 0.31), { width, words }),
  "recording of an hour": (width, words) => soundChart(pictureOf(3600, 0.3), { width, words }),
  "recording of nothing": (width, words) =>
    soundChart({ name: "mute.wav", seconds: 2, peaks: [], onsets: [], noiseMs: 0 }, { width, words }),
  "climb of a term": (width, words) => climbChart(FIRST, termOf(120), { width, words }),
  "climb of three evenings": (width, words) => climbChart(FIRST, termOf(11, 0.3), { width, words }),
  "climb of a year": (width, words) => climbChart(FIRST, termOf(1000, 0.45), { width, words }),
  "drift over nine weeks": (width, words) => driftChart({ drift: driftOver(9, 2) }, { width, words }),
  "drift over one week": (width, words) => driftChart({ drift: driftOver(1, 60) }, { width, words }),
  "drift over ten years": (width, words) => driftChart({ drift: driftOver(520, 8) }, { width, words }),
  "drift in silences of unknown length": (width, words) => {
    const rows = driftOver(9, 2).map(({ length: _, ...row }, i) => ({
      ...row,
      unmeasured: i % 2 === 0 ? 0 : row.measured,
    }));
    return driftChart({ drift: rows }, { width, words });
  },
  "drift of nobody": (width, words) => driftChart({ drift: [] }, { width, words }),
  "places of a class": (width, words) => placesChart(placesOf(28), { width, words }),
  "places of a district": (width, words) => placesChart(placesOf(40_000), { width, words }),
  "places on 701 299 000 rungs": (width, words) => placesChart(placesOf(200, true), { width, words }),
  "places of nobody": (width, words) => placesChart({ at: timeOf(0), students: [], courses: [] }, { width, words }),
  "report of a class": (width, words) => reportChart(placesOf(28), { width, words }),
  "report of a student": (width, words) =>
    reportChart(reportOfTerm(), { width, words, climbs: [{ course: FIRST, events: termOf(120) }] }),
  "climb of nobody": (width, words) => climbChart(FIRST, [], { width, words }),
};

const english = await loadWords("en");
if (!english.ok) throw new Error("no English");
const ENGLISH: Words = english.value;

/** Every kind of chart over everyday and extreme material, by name; in English without words. */
export const CHARTS: Readonly<Record<string, (width: number, words?: Words) => string>> = Object.fromEntries(
  Object.entries(WORDED_CHARTS).map(([name, draw]) => [name, (width: number, words = ENGLISH) => draw(width, words)]),
);

/** A line of lettering as it stands on the paper: upper estimates of its box, px. */
export interface Lettered {
  readonly text: string;
  readonly size: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** All lettering of a chart; throws when the chart is not well-formed XML. */
export function letteringOf(svg: string): Lettered[] {
  const document = XmlDocument.fromString(svg);
  try {
    const found: Lettered[] = [];
    const walk = (element: XmlElement, down: number): void => {
      for (let child = element.firstChild; child !== null; child = child.next) {
        if (!("attrs" in child)) continue;
        const each = child as XmlElement;
        const attribute = (name: string): string | undefined => each.attr(name)?.value;
        const shift = Number(/translate\(0 ([\d.-]+)\)/.exec(attribute("transform") ?? "")?.[1] ?? 0);
        if (each.name === "text") {
          const size = Number(attribute("font-size"));
          const width = widthOf(each.content, { size, bold: attribute("font-weight") === "bold" });
          const x = Number(attribute("x"));
          const anchor = attribute("text-anchor");
          const left = x - (anchor === "end" ? width : anchor === "middle" ? width / 2 : 0);
          const base = down + Number(attribute("y"));
          // Ascender and descender of a sans serif: about .76 and .24 of its size.
          found.push({
            text: each.content,
            size,
            left,
            right: left + width,
            top: base - 0.76 * size,
            bottom: base + 0.24 * size,
          });
        }
        walk(each, down + shift);
      }
    };
    walk(document.root, 0);
    return found;
  } finally {
    document.dispose();
  }
}

export function sizeOf(svg: string): { readonly width: number; readonly height: number } {
  const [, width, height] = /viewBox="0 0 (\d+) (\d+)"/.exec(svg)!;
  return { width: Number(width), height: Number(height) };
}

/** The flag of a landing, as it is drawn. */
export const FLAG = "l7 4l-7 4z";

/** How often a piece stands in a text. */
export const count = (text: string, piece: string): number => text.split(piece).length - 1;
