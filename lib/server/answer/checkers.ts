import { checked, type Validator } from "../../schema/index.js";
import * as bodies from "../generated/bodies.js";
import * as queries from "../generated/queries.js";
import type { SchemaObject } from "../operations/model.js";
import type { OperationId } from "../operations/operationId.js";
import type { Result } from "../problem.js";

const BODIES: Readonly<Record<string, Validator>> = bodies;
const QUERIES: Readonly<Record<string, Validator | undefined>> = queries;

/** A JSON body by the schema that the OpenAPI document shows, defaults filled in. A take in it is anything here: it is judged by its own validator. */
export function checkBody({ $ref }: SchemaObject, value: unknown): Result<unknown> {
  return checked(value, BODIES[`${$ref}`.split("/").at(-1)!]!);
}

/** A query by the schemas that the OpenAPI document shows. Its numbers are text, and are read as numbers. */
export function checkQuery(
  id: OperationId,
  value: Readonly<Record<string, string>>,
): Result<Readonly<Record<string, unknown>>> {
  return checked(value, QUERIES[id] ?? queries.none);
}
