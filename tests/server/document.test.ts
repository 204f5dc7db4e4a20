import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { validate } from "@readme/openapi-parser";
import { Validator } from "@seriousme/openapi-schema-validator";
import openapiTypes, { astToString, type OpenAPI3 } from "openapi-typescript";
import { describe, expect, test } from "vitest";
import { schoolDocument } from "../../lib/server/index.js";
import { OPERATIONS } from "../../lib/server/operations/operations.js";
import { ROOT } from "../sources.js";

const fresh = (): Record<string, unknown> => structuredClone(schoolDocument("0.0.0"));

describe("the OpenAPI document of a school", () => {
  test("is valid by @seriousme/openapi-schema-validator, which refuses one that is broken", async () => {
    const validator = new Validator();
    expect(await validator.validate(fresh())).toMatchObject({ valid: true });
    expect(validator.version).toBe("3.1");
    const broken = fresh();
    delete (broken.info as Record<string, unknown>).title;
    expect(await new Validator().validate(broken)).toMatchObject({ valid: false });
  });

  test("is valid by @readme/openapi-parser, which refuses a reference to nothing", async () => {
    expect(await validate(fresh() as never)).toMatchObject({ valid: true });
    const text = JSON.stringify(fresh()).replaceAll("#/components/schemas/Merged", "#/components/schemas/Nothing");
    const broken = await validate(JSON.parse(text)).catch((error: Error) => ({ valid: false, error }));
    expect(broken.valid).toBe(false);
  });

  test("gives the types that the tests' client is made of", async () => {
    const text = astToString(await openapiTypes(fresh() as unknown as OpenAPI3));
    const file = join(ROOT, "tests/server/api.d.ts");
    // API=write brings the file up to date instead of comparing it.
    if (process.env.API === "write") writeFileSync(file, text);
    else expect(readFileSync(file, "utf8")).toBe(text);
  });

  test("has each path and method once", () => {
    const all = Object.values(OPERATIONS).map(({ method, path }) => `${method} ${path}`);
    expect(new Set(all).size).toBe(all.length);
  });
});
