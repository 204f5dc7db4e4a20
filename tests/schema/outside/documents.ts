import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "yaml";
import { type Curriculum, compileCourse, readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { type Plan, planSession } from "../../../lib/plan/index.js";
import { beginJournal, decide } from "../../../lib/progress/index.js";
import { frameOf, prepareRehearsal, rehearsalReport, rehearsePart, reportTerms } from "../../../lib/rehearsal/index.js";
import { openReport } from "../../../lib/report/index.js";
import { assess } from "../../../lib/take/index.js";
import { ROOT } from "../../sources.js";
import { must } from "../../time/shorthand.js";

export type Json = Readonly<Record<string, unknown>>;
export interface Case {
  readonly schema: string;
  readonly value: unknown;
}

/** The schemas by the names of their documents. */
export const schemas: Readonly<Record<string, Json>> = Object.fromEntries(
  readdirSync(join(ROOT, "schemas"))
    .filter((file) => file.endsWith(".schema.json"))
    .map((file) => [file.replace(".schema.json", ""), JSON.parse(readFileSync(join(ROOT, "schemas", file), "utf8"))]),
);
const AT = "2026-03-02T17:30:00Z";

/** A document of each kind, as leeway writes it for the first drill of a course. */
function documentsOf(file: string): readonly Case[] {
  const text = readFileSync(join(ROOT, "curricula", file), "utf8");
  const course: Curriculum = must(readCurriculum(text, { file, readFile: () => undefined }));
  const score = scoreOf(rungs(course.drills[0]!).at(0));
  const onsets = score.expected.map(({ at, pitch }) => ({ at: at + 0.01, ...(pitch === undefined ? {} : { pitch }) }));
  const take = { version: 1 as const, id: "first", zero: "bar-1" as const, onsets };
  const finding = assess(score, take);
  const begun = beginJournal(course, "tern", AT);
  const decided = decide(course, begun.standing, finding, AT);
  const events = [...begun.events, ...decided.events];
  const report = openReport({ at: AT });
  report.add({ student: "tern", curriculum: course.name, events, courseOf: () => course });
  return [
    { schema: "curriculum", value: parse(text) },
    { schema: "compiled", value: JSON.parse(compileCourse(course)) },
    { schema: "score", value: score },
    { schema: "take", value: take },
    { schema: "finding", value: finding },
    ...events.map((value) => ({ schema: "event", value })),
    { schema: "standing", value: decided.standing },
    { schema: "report", value: report.close() },
    { schema: "plan", value: JSON.parse(JSON.stringify(planOf(course, begun))) },
  ];
}

/** What a student who has just begun practises, with the chance to be ready. */
function planOf(curriculum: Curriculum, { standing, events }: ReturnType<typeof beginJournal>): Plan {
  const deadline = { on: "2026-04-01" };
  return must(planSession({ curriculum, standing, events, today: "2026-03-02", minutes: 20, seed: 1, deadline }));
}

/** A population as a person states it, with one trait of each kind. */
const POPULATION: Case = {
  schema: "population",
  value: {
    version: 1,
    population: "evening class",
    traits: { motor: { median: 14, ratio: 1.5 }, lean: { mean: -0.5, sd: 1.5 } },
  },
};

/** A manifest as `leeway publish` writes it, here of two files. */
const PUBLICATION: Case = {
  schema: "publication",
  value: {
    version: 1,
    madeBy: { program: "leeway", version: "0.1.0" },
    course: { name: "short-walk", edition: "1.0.0", title: "Short walk", language: "en", sha256: "0f".repeat(32) },
    address: "https://quay.example/walk/",
    asked: { formats: ["mp3"], mixes: ["play"], paper: "a4", loudness: -14 },
    cautions: ["Rest between takes."],
    files: [
      {
        ...{ file: "sound/walk/01-walk-150-play.mp3", kind: "sound", drill: "walk", rung: "tempo=150", mix: "play" },
        ...{ bytes: 260_000, sha256: "0a".repeat(32), from: "0b".repeat(32), rate: 44_100, length: 478_485 },
        ...{ downbeat: 81_585, loudness: null, peak: -1.2, heldBack: false },
      },
      { file: "overview.pdf", kind: "overview", bytes: 9, sha256: "0c".repeat(32), from: "0d".repeat(32) },
    ],
  },
};

/** What a rehearsal with a few students reports. */
function rehearsedCase(): Case {
  const file = "quayside-first-course.yaml";
  const text = readFileSync(join(ROOT, "curricula", file), "utf8");
  const course: Curriculum = must(readCurriculum(text, { file, readFile: () => undefined }));
  const ready = prepareRehearsal(course, { drills: ["half-bar"], weeks: 2 });
  const part = rehearsePart([ready], { from: 0, count: 4 });
  const report = rehearsalReport(part, frameOf(ready.course), reportTerms(ready, "drawn"));
  return { schema: "rehearsal", value: JSON.parse(JSON.stringify(report)) };
}

/** Documents as leeway and people write them, at least one of each format. */
export const documents: readonly Case[] = [
  ...readdirSync(join(ROOT, "curricula"))
    .filter((file) => file.endsWith(".yaml"))
    .flatMap(documentsOf),
  POPULATION,
  PUBLICATION,
  rehearsedCase(),
];
