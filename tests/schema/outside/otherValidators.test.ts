import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { type Curriculum, compileCourse, readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { type Plan, planSession } from "../../../lib/plan/index.js";
import { beginJournal, decide } from "../../../lib/progress/index.js";
import { frameOf, prepareRehearsal, rehearsalReport, rehearsePart, reportTerms } from "../../../lib/rehearsal/index.js";
import { openReport } from "../../../lib/report/index.js";
import { assess } from "../../../lib/take/index.js";
import { pythonWith, saidBy } from "../../python.js";
import { ROOT } from "../../sources.js";
import { must } from "../../time/shorthand.js";

/*
 * The schemas, and documents made with the shipped courses, judged by Python's jsonschema (MIT), which shares no code with ajv: its regular
 * expressions, its references and its numbers are Python's.
 */

type Json = Readonly<Record<string, unknown>>;
interface Case {
  readonly schema: string;
  readonly value: unknown;
}

const schemas: Readonly<Record<string, Json>> = Object.fromEntries(
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

const documents: readonly Case[] = [
  ...readdirSync(join(ROOT, "curricula"))
    .filter((file) => file.endsWith(".yaml"))
    .flatMap(documentsOf),
  POPULATION,
  PUBLICATION,
  rehearsedCase(),
];

/** Copies of a value, each broken in one place: a key gone, a key too many, something else in its place. */
function* brokenCopies(value: unknown, depth: number): Iterable<unknown> {
  if (typeof value !== "object" || value === null || depth === 0) return;
  if (Array.isArray(value)) {
    for (const broken of brokenCopies(value[0], depth - 1)) yield [broken, ...value.slice(1)];
    return;
  }
  yield { ...value, "a key of tomorrow": 1 };
  for (const [key, held] of Object.entries(value)) {
    const rest = Object.fromEntries(Object.entries(value).filter(([other]) => other !== key));
    yield rest;
    for (const other of [null, "no", -1.5, [], {}, `${held}\n`]) yield { ...value, [key]: other };
    for (const broken of brokenCopies(held, depth - 1)) yield { ...value, [key]: broken };
  }
}

const first = (schema: string): Json => documents.find((each) => each.schema === schema)!.value as Json;

/** Documents that nobody may take. */
const BROKEN: readonly (readonly [string, Case])[] = [
  ...Object.keys(schemas).map((schema): readonly [string, Case] => [
    `a ${schema} of a later version`,
    { schema, value: { ...first(schema), version: 99 } },
  ]),
  [
    "an edition in digits of another script",
    { schema: "curriculum", value: { ...first("curriculum"), edition: "١.٠.٠" } },
  ],
  ["an edition with a line end", { schema: "curriculum", value: { ...first("curriculum"), edition: "1.0.0\n" } }],
  ["a name that begins with a blank", { schema: "curriculum", value: { ...first("curriculum"), curriculum: " quay" } }],
  ["a name with a line end", { schema: "curriculum", value: { ...first("curriculum"), curriculum: "quay\n" } }],
  ["a score without a version", { schema: "score", value: { ...first("score"), version: undefined } }],
  ["a finding without a version", { schema: "finding", value: { ...first("finding"), version: undefined } }],
  ["a pitch that is none", { schema: "take", value: { onsets: [{ at: 1, pitch: "H4" }] } }],
  ["a pitch with a line end", { schema: "take", value: { onsets: [{ at: 1, pitch: "D4\n" }] } }],
  ["a moment without a zone", { schema: "event", value: { ...first("event"), at: "2026-03-02T17:30:00" } }],
];
/** Documents that a person writes, without a version. */
const UNVERSIONED: readonly Case[] = [
  { schema: "take", value: { onsets: [0.5, { at: 1, pitch: "B♭3" }] } },
  { schema: "curriculum", value: { ...first("curriculum"), curriculum: "møllebrygge-ø" } },
];

const ajv = new Ajv2020({ strict: false, formats: { "date-time": true, date: true } });
for (const schema of Object.values(schemas)) ajv.addSchema(schema);
const taken = ({ schema, value }: Case): boolean =>
  ajv.getSchema(schemas[schema]!.$id as string)!(JSON.parse(JSON.stringify(value))) as boolean;

const python = pythonWith("jsonschema");
const broken = [...new Map(documents.map((each) => [each.schema, each])).values()].flatMap(({ schema, value }) =>
  [...brokenCopies(value, 4)].slice(0, 1500).map((copy): Case => ({ schema, value: copy })),
);
const cases = [...documents, ...UNVERSIONED, ...BROKEN.map(([, each]) => each), ...broken];
const said =
  python === undefined
    ? undefined
    : saidBy<{ readonly faults: Readonly<Record<string, readonly string[]>>; readonly verdicts: readonly boolean[] }>(
        python,
        "schema/outside/validate.py",
        { schemas, cases },
      );
const saidOf = (of: Case): boolean => said!.verdicts[cases.indexOf(of)]!;

describe("the schemas", () => {
  test.each(Object.keys(schemas))(
    "%s is named by a lasting address with the version that its documents carry",
    (name) => {
      const [, version] = /^https:\/\/leeway\.example\/schemas\/v(\d+)\/\w+\.schema\.json$/.exec(
        schemas[name]!.$id as string,
      )!;
      expect(taken({ schema: name, value: { ...first(name), version: Number(version) } })).toBe(true);
      expect(taken({ schema: name, value: { ...first(name), version: Number(version) + 1 } })).toBe(false);
    },
  );

  test("have patterns of what every reader of regular expressions knows and reads alike", () => {
    const withoutExamples = JSON.stringify(schemas, (key, value) => (key === "examples" ? undefined : value));
    const patterns = withoutExamples.matchAll(/"pattern":("(?:[^"\\]|\\.)*")/g);
    for (const [, text] of patterns) {
      const pattern = JSON.parse(text!) as string;
      // Digits and letters of other scripts, ends of lines, and classes of signs are where readers differ.
      expect(pattern).not.toMatch(/\\[dDwWsSbBpPuxk]|\(\?<|\(\?[^!]/);
      expect(pattern).toMatch(/^\^[^$]*\$\(\?!\\n\)$/);
    }
  });

  test("take the documents that are written with the shipped courses, and refuse broken ones", () => {
    for (const each of [...documents, ...UNVERSIONED]) expect(taken(each), each.schema).toBe(true);
    for (const [name, each] of BROKEN) expect(taken(each), name).toBe(false);
  });
});

describe.skipIf(python === undefined)("Python's jsonschema", () => {
  test.each(Object.keys(schemas))("finds nothing wrong with the schema of a %s by the meta-schema", (name) => {
    expect(said!.faults[name]).toEqual([]);
  });

  test("takes the documents that are written with the shipped courses", () => {
    for (const each of [...documents, ...UNVERSIONED]) expect(saidOf(each), each.schema).toBe(true);
  });

  test.each(BROKEN)("refuses %s", (_, each) => expect(saidOf(each)).toBe(false));

  test(`judges ${broken.length} documents broken in one place as ajv does, most of them refused`, () => {
    const otherwise = broken.filter((each) => saidOf(each) !== taken(each));
    expect(otherwise.map(({ schema, value }) => `${schema}: ${JSON.stringify(value).slice(0, 300)}`)).toEqual([]);
    expect(broken.filter(taken).length).toBeLessThan(broken.length / 3);
  });
});
