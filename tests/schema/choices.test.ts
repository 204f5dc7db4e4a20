import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { problemsFrom } from "../../lib/schema/problems.js";
import type { Violation } from "../../lib/schema/violation.js";
// @ts-expect-error: the generator is plain JavaScript.
import { chooseBranches } from "../../schemas/generate/choices.mjs";

const gate = {
  title: "Gate",
  oneOf: [
    {
      type: "object",
      additionalProperties: false,
      required: ["clean", "of"],
      properties: { clean: { type: "integer" }, of: { type: "integer", default: 4 } },
    },
    {
      type: "object",
      additionalProperties: false,
      required: ["in-a-row"],
      properties: { "in-a-row": { type: "integer" } },
    },
    { type: "string", pattern: "^open$", examples: ["open"] },
  ],
};
const event = {
  oneOf: [
    {
      type: "object",
      additionalProperties: false,
      required: ["kind", "at"],
      properties: { kind: { const: "enrolled" }, at: { type: "string", default: "now" } },
    },
    { type: "object", additionalProperties: false, required: ["kind"], properties: { kind: { const: "gone back" } } },
  ],
};

function told(schema: object, value: unknown): readonly string[] {
  const ajv = new Ajv2020({
    allErrors: true,
    allowUnionTypes: true,
    strict: true,
    strictRequired: false,
    useDefaults: true,
    verbose: true,
  });
  ajv.addVocabulary(["x-choices", "x-tag"]);
  const validate = ajv.compile(chooseBranches(schema, (piece: unknown) => piece));
  validate(value);
  return problemsFrom((validate.errors ?? []) as readonly Violation[]).map(
    (problem) => `${problem.code} ${problem.where.pointer}`,
  );
}

describe("chooseBranches()", () => {
  test("judges a value by the branch whose own key it has", () => {
    expect(told(gate, { "in-a-row": 3 })).toEqual([]);
    expect(told(gate, { clean: "3", of: 4 })).toEqual(["WRONG_TYPE /clean"]);
    expect(told(gate, { "in-a-row": 3, of: 4 })).toEqual(["UNKNOWN_KEY /of"]);
  });

  test("judges a value by the branch whose constant it carries, and applies that branch's defaults", () => {
    const value = { kind: "enrolled" };
    expect(told(event, value)).toEqual([]);
    expect(value).toEqual({ kind: "enrolled", at: "now" });
    expect(told(event, { kind: "gone back", at: "now" })).toEqual(["UNKNOWN_KEY /at"]);
  });

  test("says one thing about a value that belongs to no branch", () => {
    expect(told(gate, { cleen: 3 })).toEqual(["NO_SUCH_FORM "]);
    expect(told(gate, 7)).toEqual(["WRONG_TYPE "]);
    expect(told(gate, "shut")).toEqual(["TEXT_FORM "]);
    expect(told(event, { kind: "paused" })).toEqual(["NO_SUCH_FORM "]);
    expect(told(event, null)).toEqual(["WRONG_TYPE "]);
  });

  test("leaves branches of equal type together, as one choice", () => {
    const pitch = {
      oneOf: [{ type: "string", pattern: "^[A-G]$" }, { type: "string", pattern: "^\\d$" }, { type: "number" }],
    };
    expect(told(pitch, "A")).toEqual([]);
    expect(told(pitch, "x")).toEqual(["NO_SUCH_FORM "]);
  });

  test("accepts and refuses the same values as the schema it rewrites", () => {
    const plain = new Ajv2020({ allowUnionTypes: true, strict: false }).compile(gate);
    for (const value of [
      { clean: 1, of: 2 },
      { clean: 1 },
      { "in-a-row": 1 },
      { "in-a-row": 1, clean: 1 },
      "open",
      "shut",
      1,
      null,
      [],
      {},
      true,
    ]) {
      // Defaults are filled in before the check: `of` is the one key here that may be left out.
      const filled =
        value !== null && typeof value === "object" && "clean" in value && !("in-a-row" in value)
          ? { of: 4, ...value }
          : value;
      expect([value, told(gate, value).length === 0]).toEqual([value, plain(filled)]);
    }
  });
});
