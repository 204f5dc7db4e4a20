import { FetchingJSONSchemaStore, InputData, JSONSchemaInput, quicktype } from "quicktype-core";
import { describe, expect, test } from "vitest";
import { pythonWith, saidBy } from "../../python.js";
import { type Case, documents, schemas } from "./documents.js";

/*
 * Types generated for another language by a general program (quicktype, Apache-2.0), which knows nothing of leeway. Python's are used: what is read with them and
 * written again is the same document.
 */

/** A course is written in YAML by people, in many forms; what apps exchange is the rest. */
const EXCHANGED = Object.keys(schemas).filter((name) => name !== "curriculum");
const typeOf = (schema: string): string => String(schemas[schema]!.title);

/** The schemas as the program finds them. Moments stay texts: Python would write them in another spelling. */
class Beside extends FetchingJSONSchemaStore {
  override async fetch(address: string): Promise<object | undefined> {
    const name = /(\w+)\.schema\.json/.exec(address)?.[1];
    return name === undefined ? undefined : JSON.parse(written(name));
  }
}

const written = (name: string): string =>
  JSON.stringify(schemas[name], (key, value) => (key === "format" ? undefined : value));

async function pythonTypes(): Promise<string> {
  const input = new JSONSchemaInput(new Beside());
  for (const name of EXCHANGED) await input.addSource({ name: typeOf(name), schema: written(name) });
  const inputData = new InputData();
  inputData.addInput(input);
  const { lines } = await quicktype({ inputData, lang: "python", rendererOptions: { "python-version": "3.7" } });
  return lines.join("\n");
}

/** These types tell a key that is left out from one that is null no more than Python does: a key that may be left out is not written when it is null. */
const withoutNulls = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value, (_, held) => (held === null ? undefined : held)));

const python = pythonWith("dataclasses");
const types = await pythonTypes();
const cases = documents
  .filter(({ schema }) => EXCHANGED.includes(schema))
  .map(({ schema, value }): Case => ({ schema, value: JSON.parse(JSON.stringify(value)) }));

test("types for Python are generated from the schemas, one for each format", () => {
  for (const name of EXCHANGED) expect(types).toContain(`\nclass ${typeOf(name)}:\n`);
});

describe.skipIf(python === undefined)("Python, with types generated from the schemas", () => {
  const read =
    python === undefined
      ? []
      : saidBy<readonly { readonly value?: unknown; readonly fault?: string }[]>(python, "schema/outside/types.py", {
          types,
          cases: cases.map(({ schema, value }) => ({ type: typeOf(schema), value })),
        });

  test.each(EXCHANGED)("reads a %s and writes it as it was", (name) => {
    const own = cases.map((each, i) => [each, read[i]] as const).filter(([{ schema }]) => schema === name);
    expect(own.length).toBeGreaterThan(0);
    for (const [{ value }, again] of own) expect(again).toEqual({ value: withoutNulls(value) });
  });
});
