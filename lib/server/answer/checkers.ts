import { Ajv } from "ajv";
import { checked, type Validator } from "../../schema/index.js";
import { OWN_SCHEMAS } from "../openapi/ownSchemas.js";
import type { SchemaObject } from "../operations/model.js";
import type { OperationId } from "../operations/operationId.js";
import { OPERATIONS } from "../operations/operations.js";
import type { Result } from "../problem.js";

/** Checks of what is asked, by the schemas that the OpenAPI document shows. Defaults are filled in. */
export interface Checkers {
  body(schema: SchemaObject, value: unknown): Result<unknown>;
  /** Numbers in a query are text, and are read as numbers. */
  query(id: OperationId, value: Readonly<Record<string, string>>): Result<Readonly<Record<string, unknown>>>;
}

/** Compiles the checks once. A take is judged by its own validator; the other schemas use only what draft 7 and 2020-12 read alike, and the reader of the former is smaller. */
export function openCheckers(): Checkers {
  const options = { allErrors: true, strict: false, useDefaults: true, validateFormats: false, verbose: true };
  const components = { schemas: { ...OWN_SCHEMAS, Take: {}, Finding: {} } };
  const bodies = new Ajv(options).addSchema({ $id: "school", components });
  const queries = new Ajv({ ...options, coerceTypes: true });
  const compiled = new Map<string, Validator>();
  const once = (name: string, compile: () => unknown): Validator => {
    const known = compiled.get(name) ?? (compile() as Validator);
    compiled.set(name, known);
    return known;
  };
  return {
    body: ({ $ref }, value) =>
      checked(
        value,
        once(`${$ref}`, () => bodies.compile({ $ref: `school${$ref}` })),
      ),
    query: (id, value) =>
      checked(
        value,
        once(id, () =>
          queries.compile({ type: "object", additionalProperties: false, properties: OPERATIONS[id].query ?? {} }),
        ),
      ),
  };
}
