import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { pythonWith, saidBy } from "../../python.js";
import { type Case, documents, type Json, schemas } from "./documents.js";

/*
 * The schemas, and documents made with the shipped courses, judged by Python's jsonschema (MIT), which shares no code with ajv: its regular
 * expressions, its references and its numbers are Python's.
 */

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
