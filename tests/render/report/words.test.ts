import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CAUTIONS } from "../../../lib/base/index.js";
import { reportText } from "../../../lib/cli/report/text.js";
import { rungs, settingsText } from "../../../lib/drill/index.js";
import { climbChart, driftChart, placesChart, reportChart } from "../../../lib/render/chart/index.js";
import { reportPage } from "../../../lib/render/report/index.js";
import { openReport, type ReportWords, reportCsv } from "../../../lib/report/index.js";
import { stickingWords } from "../../../lib/report/stickingWords.js";
import { unmeasured } from "../../../lib/report/unmeasured.js";
import { ENGLISH } from "../../../lib/report/words.js";
import type { JournalEvent, Report, Sticking } from "../../../lib/schema/index.js";
import { REASONS } from "../../../lib/take/index.js";
import { listLanguages, loadWords, reportInEnglish } from "../../../lib/words/index.js";
import { EDITIONS } from "../../progress/history.js";
import { classOf, reportOf } from "../../report/journals.js";
import { markedWords, unmarked } from "../../words/marked.js";
import { FIRST, letteringOf, termOf } from "../chart/material.js";

const said = new Set<string>();
const marked: ReportWords = markedWords();
const words: ReportWords = {
  ...marked,
  say: (key, ...given) => {
    said.add(key);
    return marked.say(key, ...given);
  },
};

/** What people see of markup: its text, and the labels that the style sheet shows; each piece on a line of its own. */
function seenIn(markup: string): string {
  return markup
    .replace(/<style>[\s\S]*?<\/style>/, "")
    .replaceAll(/ data-is="([^"]*)"/g, "")
    .replaceAll(/<\/?(?:bdi|strong)>/g, "")
    .replaceAll(/<[^>]*>/g, "\n")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&")
    .replaceAll("&#39;", "'");
}

function labelsIn(markup: string): string {
  return [...markup.matchAll(/ data-is="([^"]*)"/g)].map(([, label]) => label!).join("\n");
}

/** Texts of a chart. They are drawn 2000 px wide, so that none is broken into lines or cut. */
function textsIn(svg: string): string {
  const spoken = [...svg.matchAll(/<(title|desc)>([^<]*)</g)].map(([, , text]) => text!);
  // A label of an axis has little room: what was cut begins with its message.
  const seen = letteringOf(svg).map(({ text }) => text.replace(/^⟦.*…$/, ""));
  return [...spoken, ...seen].join("\n");
}

/** Every text that a person or a file gave: names, lengths, settings, dates. */
function givenIn(value: unknown): readonly string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(givenIn) : [];
}

/** Expects that what stands in no message, and what messages hold as text, has no word but those that came with the report. */
function expectWorded(text: string, given: readonly unknown[]): void {
  const { outside, names } = unmarked(text);
  const own = new Set(givenIn(given).flatMap((each) => each.toLowerCase().match(/\p{L}[\p{L}-]*/gu) ?? []));
  for (const piece of [outside, ...names])
    for (const word of piece.toLowerCase().match(/\p{L}[\p{L}-]*/gu) ?? [])
      expect(own, text.slice(0, 200)).toContain(word);
}

const AT = ["2026-03-30T18:00:00Z", "2026-06-30T18:00:00Z"] as const;
const CLASSES = fc.sample(classOf, { seed: 4, numRuns: 12 });

function expectReportWorded(report: Report, own: readonly unknown[] = []): void {
  const given = [report, own];
  const page = reportPage(report, { words });
  expectWorded(seenIn(page.replaceAll(/<svg[\s\S]*?<\/svg>/g, "")), given);
  expectWorded(labelsIn(page), given);
  expectWorded([...reportText(report, words)].join(""), given);
  for (const draw of [placesChart, driftChart, reportChart])
    expectWorded(textsIn(draw(report, { width: 2000, words })), given);
}

describe("a report says nothing that bypasses the catalogue", () => {
  test.each(AT)("of several students, as it was at %s", (at) => {
    for (const pupils of CLASSES) {
      expectReportWorded(reportOf(pupils, { at }));
      expectReportWorded(reportOf(pupils, { at, since: "2026-03-09" }));
    }
  });

  test("of two courses, of somebody who has not begun, and of nobody", () => {
    const report = openReport({ at: AT[0] });
    for (const [student, takes] of [["tern", 120] as const, ["gull", 0] as const]) {
      const events = termOf(takes).map((event) => ({ ...event, student }));
      report.add({ student, curriculum: FIRST.name, events, courseOf: () => FIRST });
      report.add({ student, curriculum: "other", events, courseOf: () => undefined });
    }
    expectReportWorded(report.close());
    expectReportWorded({ version: 2, at: AT[0], students: [], courses: [], drift: [] });
  });

  const tally = { within: 2, beyond: 1, unclear: 0 };
  const drills = Array.from({ length: 20 }, (_, i) => ({ drill: `d-${i}`, rungs: 1, complete: 1, places: [] }));
  const silent = { told: "each silence", takes: 1, measured: 1, unmeasured: 0 } as const;
  const quartiles = { median: 0, low: -1, high: 1 };

  test("of much that is not drawn", () => {
    const places = [{ drill: "d-0", rung: "", number: 1, rungs: 1, since: AT[0], takes: tally, stuckAfter: 8 }];
    const course = { curriculum: "quay", edition: "1.0.0", quiet: false, takes: tally, complete: [], places: [] };
    const weeks = ["2010-01-04", "2026-01-05", "2026-01-12"].map((week) => ({
      ...{ week, takes: 1, measured: 1, unmeasured: 0, driftMs: quartiles, driftPercent: quartiles },
    }));
    const rows = Array.from({ length: 12 }, (_, i) => ({ ...silent, length: `${i + 1} bars`, weeks }));
    expectReportWorded({
      ...{ version: 2, at: AT[0] },
      students: [
        { student: "gull", courses: [{ ...course, complete: ["d-0"] }] },
        { student: "knot", courses: [course] },
        { student: "tern", courses: [{ ...course, places }] },
      ],
      courses: [
        {
          ...{ curriculum: "quay", students: 3, stuck: 0, quiet: 0, takes: tally },
          drills: [
            { ...drills[0]!, places: [{ rung: "", number: 1, students: 1, stuck: 0 }] },
            { ...drills[1]!, places: [{ rung: "tempo=9", students: 1, stuck: 0 }] },
            ...drills.slice(2),
          ],
        },
      ],
      drift: rows.map((row) => ({ ...row, driftMs: quartiles, driftPercent: quartiles })),
    });
  });

  test("in the chart of a climb through many drills", () => {
    const [steady] = FIRST.drills;
    const course = { name: "quay", drills: drills.map(({ drill }) => ({ ...steady!, name: drill })) };
    const to = settingsText(rungs(steady!).at(1).settings);
    const journal = (names: readonly string[], completed: readonly string[]): JournalEvent[] =>
      [...names, ...completed].map((drill, i) => ({
        ...{ version: 2, id: `e${i}`, turn: i, at: AT[0], student: "tern", curriculum: "quay", drill },
        ...(i < names.length
          ? { kind: "set by teacher", to }
          : { kind: "drill completed", from: to, gate: "1 clean", evidence: [], against: 0 }),
      })) as unknown as JournalEvent[];
    const all = drills.map(({ drill }) => drill);
    const lost = (count: number): readonly string[] => Array.from({ length: count }, (_, i) => `gone-${i}`);
    for (const [names, completed] of [
      [all, all.slice(0, 5)],
      [all, all.slice(0, 2)],
      [all.slice(0, 1), all.slice(0, 1)],
      [[...lost(3), ...all], []],
      [[...lost(7), ...all], []],
    ] as const) {
      const svg = climbChart(course, journal(names, completed), { width: 2000, words });
      expectWorded(textsIn(svg), [course, names, "tern"]);
    }
  });

  test("in the chart of a climb", () => {
    const events = termOf(120);
    for (const within of [0.05, 0.5, 0.95])
      expectWorded(textsIn(climbChart(FIRST, termOf(120 + within, within), { width: 2000, words })), [FIRST, events]);
    expectWorded(textsIn(climbChart(FIRST, [], { width: 2000, words })), [FIRST]);
    const other = { name: FIRST.name, drills: FIRST.drills.slice(-1) };
    expectWorded(textsIn(climbChart(other, events, { width: 2000, words })), [FIRST, events]);
    for (const [pupil] of CLASSES)
      for (const course of EDITIONS)
        expectWorded(textsIn(climbChart(course, pupil!.events, { width: 2000, words })), [EDITIONS, pupil]);
  });

  test("in a table for spreadsheets", () => {
    const report = reportOf(CLASSES[0]!, { at: AT[0] });
    const causes = report.students.flatMap(({ courses }) =>
      courses.flatMap(({ places }) => places.map((p) => p.stall)),
    );
    for (const stall of causes)
      for (const cause of stall?.on ?? []) expectWorded(stickingWords(cause, words), [cause.length, cause.reason]);
    expect([...reportCsv(report, "students", words)].join("")).not.toMatch(/\bmedian\b(?![^⟦]*⟧)/);
  });
});

const TALLY = { within: 2, beyond: 1, unclear: 1 };
const QUARTILES = { median: -12, low: -30, high: 9 };
const CAUSES: readonly Sticking[] = [
  { on: "drift", length: "2 bars", takes: 2, side: "early", medianMs: -40 },
  { on: "landing", length: "3 beats", takes: 1, side: "late", medianMs: 40, driftMs: 1 },
  { on: "slip", length: "1/2 bar", takes: 1 },
];

const SIDES = [undefined, "early", "late", "both"] as const;

test("each cause, on each side, is worded", () => {
  for (const on of ["drift", "landing", "steadiness", "slip", "unclear", "not kept"] as const)
    for (const side of SIDES)
      for (const given of [
        {},
        { length: "1 bar" },
        { medianMs: -40 },
        { medianMs: 40, driftMs: 0 },
        { reason: "NEW" },
      ]) {
        const sticking: Sticking = { on, takes: 2, ...(side === undefined ? {} : { side }), ...given };
        expectWorded(stickingWords(sticking, words), [given.length, given.reason]);
      }
});

const NOT_ENGLISH = listLanguages().flatMap(({ tag }) => (tag === "en" ? [] : [tag]));

test.each(NOT_ENGLISH)("a report in %s has no word of English, nor a length in English", async (tag) => {
  const loaded = await loadWords(tag);
  if (!loaded.ok) throw new Error(tag);
  const figures = { measured: 2, unmeasured: 1, driftMs: QUARTILES, driftPercent: QUARTILES };
  const report: Report = {
    ...{ version: 2, at: AT[0], students: [], courses: [] },
    drift: (["each silence", "largest of a take"] as const).map((told) => ({
      ...{ length: "2 bars", told, takes: 3, ...figures },
      weeks: [{ week: "2026-01-05", takes: 3, ...figures }],
    })),
  };
  const given = { drill: "steady", rung: "dropout=1/2 bar", number: 2, rungs: 3, since: AT[0], takes: TALLY };
  const stall = { since: AT[0], takes: TALLY, on: CAUSES };
  const course = { curriculum: "quay", edition: "1.0.0", quiet: true, takes: TALLY, complete: [] };
  const students = [{ student: "tern", courses: [{ ...course, places: [{ ...given, stuckAfter: 8, stall }] }] }];
  const whole: Report = { ...report, students };
  const texts = [seenIn(reportPage(whole, { words: loaded.value })), [...reportText(whole, loaded.value)].join("")];
  for (const text of texts)
    expect(text).not.toMatch(/\b(?:bars?|beats?|the|and|of|with|takes? there|early|late|fast|slow|unclear|stuck)\b/i);
  // Decimal signs: Unicode CLDR, numbers of each language; Japanese alone of these has a point.
  const decimal = tag === "ja" ? "." : ",";
  for (const text of [...texts, driftChart(whole, { words: loaded.value })]) {
    expect(text).toContain(`12${decimal}0 %`);
    if (decimal === ",") expect(text.replaceAll(/="[^"]*"/g, "")).not.toMatch(/(?<![\d.])\d+\.\d+(?![\d.])/);
  }
});

test("the reasons of unclear takes are worded as findings mean them", () => {
  for (const [reason, means] of Object.entries(REASONS))
    expect(stickingWords({ on: "unclear", takes: 1, reason }, ENGLISH)).toBe(`unclear, ${means}: 1 take`);
});

test("reports say everything that the catalogue has for them", () => {
  const page = reportPage({ version: 2, at: AT[0], students: [], courses: [], drift: [] }, { words });
  // What a document has for whoever words it.
  for (const { unmeasured: why, message } of [
    unmeasured("report.no-course"),
    unmeasured("report.gate-too-wide"),
    unmeasured("report.gate-holds", { takes: 9 }),
  ]) {
    expectWorded(words.word(message, why), []);
    said.add(message!.key);
  }
  for (const caution of CAUTIONS) expect(page).toContain(`⟦${caution}⟧`);
  expect(Object.keys(reportInEnglish).filter((key) => !said.has(key))).toEqual([]);
});
