import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { ROOT } from "../sources.js";

const FOLDER = join(ROOT, "lib", "schema", "generated");
const validators = readdirSync(FOLDER).filter((file) => file.startsWith("validate-") && file.endsWith(".js"));
const schemas = readdirSync(join(ROOT, "schemas"))
  .filter((file) => file.endsWith(".schema.json"))
  .map((file) => [file, JSON.parse(readFileSync(join(ROOT, "schemas", file), "utf8")) as Piece] as const);

interface Piece {
  readonly [key: string]: unknown;
}

describe("generated validators", () => {
  test("are there for every schema", () => {
    expect(validators.sort()).toEqual(
      schemas.map(([file]) => `validate-${file.replace(".schema.json", ".js")}`).sort(),
    );
  });

  test.each(validators)("%s runs where eval and require are forbidden", (file) => {
    expect(readFileSync(join(FOLDER, file), "utf8")).not.toMatch(
      /\beval\s*\(|new Function|\bFunction\s*\(|\brequire\s*\(|\bimport\s*\(/,
    );
  });
});

/** Every piece of a schema that has examples or a default, by its pointer. */
function illustrated(piece: unknown, pointer = "#"): readonly (readonly [string, Piece])[] {
  if (piece === null || typeof piece !== "object") return [];
  const own = !Array.isArray(piece) && ("examples" in piece || "default" in piece) && !pointer.endsWith("/properties");
  return [
    ...(own ? [[pointer, piece as Piece] as const] : []),
    ...Object.entries(piece)
      .filter(([key]) => !["examples", "default", "enum", "const"].includes(key))
      .flatMap(([key, value]) => illustrated(value, `${pointer}/${key}`)),
  ];
}

describe.each(schemas)("%s", (_file, schema) => {
  const ajv = new Ajv2020({ strict: false, formats: { "date-time": true, date: true } });
  for (const [, each] of schemas) ajv.addSchema(each);

  test("gives only examples and defaults that it would accept itself", () => {
    for (const [pointer, piece] of illustrated(schema)) {
      const validate = ajv.compile({ $ref: `${String(schema.$id)}${encodeURI(pointer)}` });
      for (const value of [...((piece.examples as unknown[]) ?? []), ...("default" in piece ? [piece.default] : [])]) {
        expect(validate(value), `${pointer}: ${JSON.stringify(value)} ${JSON.stringify(validate.errors)}`).toBe(true);
      }
    }
  });
});
