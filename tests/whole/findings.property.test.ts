import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wordsFor } from "../../lib/cli/language.js";
import { findingText } from "../../lib/cli/output/findingText.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { type Drill, rungs, scoreOf } from "../../lib/drill/index.js";
import { historyOf, planSession, planText, posteriorOf, resumePlacing } from "../../lib/plan/index.js";
import { beginJournal, decide, fold, silencesOf } from "../../lib/progress/index.js";
import { openRecords, statementsOf } from "../../lib/records/index.js";
import { takeChart, textTake } from "../../lib/render/chart/index.js";
import { reportPage } from "../../lib/render/report/index.js";
import { openReport, reportCsv } from "../../lib/report/index.js";
import {
  checkEvent,
  checkFinding,
  checkReport,
  type Finding,
  type JournalEvent,
  type Score,
  type Take,
} from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { saidBy } from "../cli/said.js";
import { sample } from "../samples.js";
import { ROOT } from "../sources.js";
import { valueIn } from "./valueIn.js";

// One law: what `checkFinding` accepts makes nothing throw that takes a finding.

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");
const { words } = await wordsFor("en");
const AT = "2026-03-02T17:30:00Z";
const course = valueIn(readCurriculum(readFileSync(COURSE, "utf8"), { file: COURSE, readFile: () => undefined }));

interface Example {
  readonly score: Score;
  readonly take: Take;
  readonly finding: Finding;
}

/** A take of the first rung of a drill, each note late by what `late` says of it; `undefined` leaves it out. */
function exampleOf(drill: Drill, late: (note: number) => number | undefined): Example {
  const score: Score = { curriculum: course.name, edition: course.edition, ...scoreOf(rungs(drill).at(0)) };
  const onsets = score.expected.flatMap(({ at }, i) => (late(i) === undefined ? [] : [at + late(i)!]));
  const take: Take = { id: "2026-03-02-1", onsets, zero: "bar-1" };
  return { score, take, finding: assess(score, take) };
}

const examples: readonly Example[] = [
  course.drills[0]!,
  course.drills.find(({ name }) => name === "half-bar")!,
].flatMap((drill) => [
  exampleOf(drill, (note) => 0.01 * Math.sin(7 * note)),
  exampleOf(drill, (note) => (note % 5 === 2 ? undefined : 0.004 * note)),
  exampleOf(drill, () => undefined),
]);

/** Everything that takes a finding, or what a journal keeps of it. Throws when anything does. */
function useAll({ score, take, finding }: Example): void {
  const begun = beginJournal(course, "tern", AT);
  const decided = decide(course, begun.standing, finding, AT);
  const events: readonly JournalEvent[] = [...begun.events, ...decided.events];
  expect(decided.what === "not counted").toBe(decided.problems.length > 0);
  for (const event of events) expect(checkEvent(event)).toMatchObject({ ok: true });
  const again = fold(JSON.parse(JSON.stringify(events)) as JournalEvent[]);
  expect(again).toEqual({ standing: decided.standing, problems: [] });
  for (const event of events) if (event.kind === "take assessed") silencesOf(event);
  const report = openReport({ at: AT });
  report.add({ student: "tern", curriculum: course.name, events, courseOf: () => course });
  const made = report.close();
  expect(checkReport(JSON.parse(JSON.stringify(made)))).toMatchObject({ ok: true });
  for (const table of ["students", "drift"] as const) expect([...reportCsv(made, table)].join("")).not.toMatch(UNTOLD);
  for (const naming of [{ kind: "names" }, { kind: "pseudonyms", key: new Uint8Array(32).fill(7) }] as const) {
    const records = valueIn(openRecords({ home: "https://quayside.example", naming }));
    expect(statementsOf(records, events).problems).toEqual([]);
  }
  expect(findingText(finding, score, { colour: false, words })).not.toMatch(UNTOLD);
  textTake(score, finding);
  try {
    expect(takeChart(score, take, finding)).not.toMatch(UNTOLD);
  } catch (error) {
    // What names notes that the take does not have is no finding of it, and drawing it is a mistake of the program.
    if (!(error instanceof RangeError && error.message.includes("the finding is not of this take"))) throw error;
  }
}

/** What no page for people says. */
const UNTOLD = /\bNaN\b|\bundefined\b|\bInfinity\b|\[object/;

/** The dear ones: beliefs, plans, placing, the page of a report. */
function foresee({ finding }: Example): void {
  const begun = beginJournal(course, "tern", AT);
  const decided = decide(course, begun.standing, finding, AT);
  const events = [...begun.events, ...decided.events];
  posteriorOf(course, historyOf(events));
  const plan = valueIn(
    planSession({ curriculum: course, standing: decided.standing, events, today: "2026-03-03", minutes: 20, seed: 1 }),
  );
  expect(planText(plan)).not.toMatch(UNTOLD);
  for (const drill of course.drills) resumePlacing(course, drill, { events });
  const report = openReport({ at: AT });
  report.add({ student: "tern", curriculum: course.name, events, courseOf: () => course });
  expect(reportPage(report.close(), { climbs: [{ course, events }] })).not.toMatch(UNTOLD);
}

type Path = readonly (string | number)[];

/** Paths to everything in a piece of data, itself left out. */
function pathsIn(value: unknown, path: Path = []): readonly Path[] {
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, held]) => {
    const own = [...path, Array.isArray(value) ? Number(key) : key];
    return [own, ...pathsIn(held, own)];
  });
}

/** The data with one thing in it changed; `undefined` takes it out. */
function changed<T>(data: T, path: Path, value: unknown): T {
  const copy = structuredClone(data);
  let at = copy as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) at = at[key] as typeof at;
  const last = path.at(-1)!;
  if (value !== undefined) at[last] = value;
  else if (Array.isArray(at)) at.splice(Number(last), 1);
  else delete at[last];
  return copy;
}

const NUMBERS = [
  0,
  -0,
  1,
  -1,
  0.5,
  1.5,
  -1e-9,
  1e-300,
  5e-324,
  100,
  1e6,
  -1e6,
  1e9,
  -1e9,
  2 ** 53,
  1e21,
  -1e21,
  1e308,
  -1e308,
];
const TEXTS = [
  "",
  " ",
  "\n",
  "\0",
  "\ud800",
  "__proto__",
  "constructor",
  "tempo=96",
  "tempo=96.0,dropout=2/4 bar",
  "a=b",
  "=",
  ",",
];
const LONG = [80, 200, 201, 2000, 2001].flatMap((length) => ["x".repeat(length), "🎺".repeat(length)]);
const ODD = [null, true, [], {}, { unmeasured: "" }, { unmeasured: "nothing was played" }];
const LISTS = [101, 300].map((length) =>
  Array.from({ length }, (_, i) => ({ code: `REASON_${i}`, says: "", dropout: i })),
);
const VALUES: readonly unknown[] = [
  undefined,
  ...NUMBERS,
  ...TEXTS,
  ...LONG,
  ...ODD,
  ...LISTS,
  "tempo=".padEnd(2000, "9"),
];

const accepted = (example: Example, path: Path, value: unknown): Example | undefined => {
  const checked = checkFinding(changed(example.finding, path, value));
  return checked.ok ? { ...example, finding: checked.value } : undefined;
};

describe("whatever checkFinding accepts", () => {
  test.each([1, 4])("never makes anything throw: each thing in example %i changed by itself", (index) => {
    const example = examples[index]!;
    let used = 0;
    const thrown: string[] = [];
    for (const path of [...pathsIn(example.finding), ["advice"]])
      for (const value of VALUES) {
        const odd = accepted(example, path, value);
        if (odd === undefined) continue;
        used++;
        try {
          useAll(odd);
        } catch (error) {
          thrown.push(`/${path.join("/")} = ${String(JSON.stringify(value)).slice(0, 80)}: ${error}`);
        }
      }
    expect(thrown).toEqual([]);
    expect(used).toBeGreaterThan(500);
  });

  test("never makes anything throw: several things changed together", () => {
    const change = fc.tuple(fc.nat(), fc.constantFrom(...VALUES));
    fc.assert(
      fc.property(
        fc.constantFrom(...examples),
        fc.array(change, { minLength: 2, maxLength: 5 }),
        (example, changes) => {
          let odd = example;
          for (const [place, value] of changes) {
            const paths = pathsIn(odd.finding);
            odd = accepted(odd, paths[place % paths.length]!, value) ?? odd;
          }
          useAll(odd);
        },
      ),
      { numRuns: sample({ suite: 150, proof: 3000 }) },
    );
  });

  test("never makes a belief, a plan, a placing or a page throw", () => {
    fc.assert(
      fc.property(fc.constantFrom(...examples), fc.nat(), fc.constantFrom(...VALUES), (example, place, value) => {
        const paths = pathsIn(example.finding);
        const odd = accepted(example, paths[place % paths.length]!, value);
        if (odd !== undefined) foresee(odd);
      }),
      { numRuns: sample({ suite: 60, proof: 1000 }) },
    );
  });

  // Each was accepted once, and made `decide` throw or a report that its own schema refuses.
  test.each([
    ["mix", "", "TEXT_LENGTH"],
    ["mix", "x".repeat(201), "TEXT_LENGTH"],
    ["rung", "x".repeat(2001), "TEXT_LENGTH"],
    ["steadiness/accompaniedMs", -1, "NUMBER_OUT_OF_RANGE"],
    ["steadiness/aloneMs", -1e6, "NUMBER_OUT_OF_RANGE"],
    ["steadiness/clockMs", -1e9, "NUMBER_OUT_OF_RANGE"],
    ["steadiness/motorMs", -1e308, "NUMBER_OUT_OF_RANGE"],
    ["dropouts/0/standardErrorMs", -1, "NUMBER_OUT_OF_RANGE"],
    ["dropouts/0/driftPercent", 1e308, "NUMBER_OUT_OF_RANGE"],
    ["reasons", [{ code: "R".repeat(101), says: "" }], "TEXT_LENGTH"],
  ])("%s = %j is refused, with its place", (place, value, code) => {
    const path = place.split("/").map((key) => (/^\d+$/.test(key) ? Number(key) : key));
    const refused = checkFinding(changed(examples[4]!.finding, path, value));
    expect(refused).toMatchObject({ ok: false, problems: [{ code }] });
    if (!refused.ok) expect(refused.problems[0]!.where.pointer).toContain(`/${place}`);
  });

  test("has any number of reasons: more than a journal once could keep", () => {
    const reasons = Array.from({ length: 300 }, (_, i) => ({ code: `REASON_${i}`, says: "", dropout: i }));
    useAll({ ...examples[4]!, finding: { ...examples[4]!.finding, reasons } });
  });

  test("and what it refuses, `leeway decide` refuses with line and place, and counts the rest", async () => {
    const { finding } = examples[1]!;
    const lines = [
      { ...finding, take: "a", mix: "" },
      { ...finding, take: "b", steadiness: { ...finding.steadiness, accompaniedMs: -1 } },
      { ...finding, take: "c" },
    ];
    const input = lines.map((line) => `${JSON.stringify(line)}\n`).join("");
    const words = ["decide", COURSE, "--journal", "nowhere.jsonl", "--student", "tern", "--findings", "-"];
    const said = await saidBy(words, { input });
    expect(said.status).toBe(1);
    expect(said.err).toMatch(/^-:1 {2}TEXT_LENGTH {2}mix must have at least 1 character, found 0/m);
    expect(said.err).toMatch(/^-:2 {2}NUMBER_OUT_OF_RANGE {2}accompaniedMs must be at least 0, found -1/m);
    expect(said.out).toContain('"take":"c"');
  });
});
