import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import type { Problem } from "../../lib/base/index.js";
import { problemsFrom } from "../../lib/schema/problems.js";
import type { Violation } from "../../lib/schema/violation.js";
// @ts-expect-error: the generator is plain JavaScript.
import { chooseBranches } from "../../schemas/generate/choices.mjs";
import { ROOT } from "../sources.js";

/** The problems of a value with a schema compiled on the spot, as the generator would compile it. */
function problemsWith(schema: object, value: unknown): readonly Problem[] {
  const ajv = new Ajv2020({
    allErrors: true,
    allowUnionTypes: true,
    strict: true,
    strictRequired: false,
    strictTypes: false,
    verbose: true,
  });
  ajv.addVocabulary(["x-choices", "x-tag"]);
  const validate = ajv.compile(chooseBranches(schema, (piece: unknown) => piece));
  validate(value);
  return problemsFrom((validate.errors ?? []) as readonly Violation[]);
}

describe("problemsFrom()", () => {
  test.each([
    ["UNKNOWN_KEY", { type: "object", additionalProperties: false, properties: { tempo: {} } }, { temop: 1 }, "/temop"],
    [
      "UNKNOWN_KEY",
      { type: "object", unevaluatedProperties: false, properties: { tempo: {} } },
      { "a/b~c": 1 },
      "/a~1b~0c",
    ],
    ["MISSING_KEY", { type: "object", required: ["tempo"] }, {}, ""],
    ["WRONG_TYPE", { type: ["number", "null"] }, "96", ""],
    ["NOT_ONE_OF", { enum: ["plays", "drops"] }, "play", ""],
    ["NOT_ONE_OF", { const: 1 }, 2, ""],
    [
      "NO_SUCH_FORM",
      {
        oneOf: [
          { type: "object", required: ["a"], properties: { a: {} } },
          { type: "object", required: ["b"], properties: { b: {} } },
        ],
      },
      { c: 1 },
      "",
    ],
    ["TEXT_FORM", { type: "string", pattern: "^a$" }, "b", ""],
    ["TEXT_LENGTH", { type: "string", maxLength: 2 }, "abc", ""],
    ["TEXT_LENGTH", { type: "string", minLength: 1 }, "", ""],
    ["NAME_FORM", { type: "object", propertyNames: { pattern: "^a$" } }, { b: 1 }, "/b"],
    ["NUMBER_OUT_OF_RANGE", { type: "number", exclusiveMinimum: 0 }, 0, ""],
    ["NUMBER_OUT_OF_RANGE", { type: "number", multipleOf: 2 }, 3, ""],
    ["TOO_MANY", { type: "array", maxItems: 1 }, [1, 2], ""],
    ["TOO_MANY", { type: "array", prefixItems: [{}], items: false, minItems: 1 }, [1, 2], ""],
    ["TOO_MANY", { type: "object", maxProperties: 1 }, { a: 1, b: 2 }, ""],
    ["TOO_FEW", { type: "array", minItems: 1 }, [], ""],
    ["REPEATED_ITEM", { type: "array", uniqueItems: true }, [1, 2, 1], ""],
    ["KEYS_TOGETHER", { type: "object", not: { required: ["a", "b"] } }, { a: 1, b: 2 }, ""],
    ["KEYS_TOGETHER", { type: "object", dependentRequired: { a: ["b"] } }, { a: 1 }, ""],
  ])("calls it %s where %j meets %j", (code, schema, value, pointer) => {
    expect(problemsWith(schema, value).map((problem) => [problem.code, problem.where.pointer])).toEqual([
      [code, pointer],
    ]);
  });

  test("says what is required, what was found, and what to write instead", () => {
    const schema = {
      type: "object",
      properties: {
        tempo: { type: "number", description: "Beats per minute.", examples: ["96"] },
        zero: { enum: ["count-in", "bar-1"] },
      },
      required: ["tempo"],
      title: "Drill",
      additionalProperties: false,
    };
    const told = (value: unknown): readonly string[] =>
      problemsWith(schema, value).map(({ message, remedy }) => `${message} -> ${remedy}`);
    expect(told({})).toEqual(["the document needs the key tempo, which is missing -> add for instance tempo: 96"]);
    expect(told({ tempo: "quick" })).toEqual(['tempo must be a number, found "quick" -> write for instance 96']);
    expect(told({ tempo: 96, temp: 1 })).toEqual([
      'the document has no key "temp"; the keys here are tempo, zero -> write tempo',
    ]);
    expect(told({ tempo: 96, zero: "bar 1" })).toEqual([
      'zero must be count-in or bar-1, found "bar 1" -> write bar-1',
    ]);
  });

  test("puts a place in words by its key, or by its number in a list", () => {
    const lists = { type: "object", properties: { bars: { type: "array", items: { type: "number" } } } };
    expect(problemsWith(lists, { bars: [1, "two"] })[0]?.message).toBe('entry 2 of bars must be a number, found "two"');
    expect(problemsWith({ type: "array", items: { type: "number" } }, ["one"])[0]?.message).toBe(
      'entry 1 must be a number, found "one"',
    );
  });
});

describe("the texts of schemas", () => {
  /** Every piece of a schema, with the examples of what holds it. */
  function* piecesOf(
    node: unknown,
    path: string,
    beside: unknown,
  ): Generator<readonly [string, Record<string, unknown>, unknown]> {
    if (node === null || typeof node !== "object") return;
    const piece = node as Record<string, unknown>;
    if (!Array.isArray(node)) yield [path, piece, beside];
    for (const [key, value] of Object.entries(piece)) {
      if (["examples", "enum", "const", "default"].includes(key)) continue;
      yield* piecesOf(value, `${path}/${key}`, piece.examples ?? (Array.isArray(node) ? beside : undefined));
    }
  }

  const folder = join(ROOT, "schemas");
  const schemas = readdirSync(folder).filter((file) => file.endsWith(".schema.json"));

  test("are no part of problems: whoever writes in a wrong form is shown an example instead", () => {
    let forms = 0;
    for (const file of schemas)
      for (const [path, piece, beside] of piecesOf(
        JSON.parse(readFileSync(join(folder, file), "utf8")),
        file,
        undefined,
      ))
        if (piece.type === "string" && ("pattern" in piece || "format" in piece)) {
          forms++;
          expect(piece.examples ?? beside, path).toBeDefined();
        }
    expect(forms).toBeGreaterThan(15);
    const generated = join(ROOT, "lib", "schema", "generated");
    for (const file of readdirSync(generated).filter((each) => /^validate-.*\.js$/.test(each)))
      expect(/description:"/.test(readFileSync(join(generated, file), "utf8")), file).toBe(false);
  });
});
