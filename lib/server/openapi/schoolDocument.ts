import type { Operation, SchemaObject } from "../operations/model.js";
import { OPERATIONS } from "../operations/operations.js";
import { OWN_SCHEMAS, ref } from "./ownSchemas.js";
import { projectSchemas } from "./projectSchemas.js";
import { REFUSALS, refusalName, refusalSchemas } from "./refusals.js";

/**
 * The OpenAPI 3.1 document of a school's server, made from the table of its operations. Its schemas are those of leeway, and a few of its own.
 *
 * @example
 * schoolDocument("1.0.0").openapi // "3.1.0"
 */
export function schoolDocument(version: string): SchemaObject {
  const paths: Record<string, Record<string, SchemaObject>> = {};
  for (const [id, operation] of Object.entries(OPERATIONS)) {
    paths[operation.path] ??= {};
    paths[operation.path]![operation.method] = described(id, operation);
  }
  return {
    openapi: "3.1.0",
    jsonSchemaDialect: "https://json-schema.org/draft/2020-12/schema",
    info: {
      title: "A school",
      version,
      description: "Takes, standings, plans and reports of the students of a school, over HTTP.",
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
    paths,
    components: {
      schemas: { ...OWN_SCHEMAS, ...refusalSchemas(), ...projectSchemas() },
      securitySchemes: {
        session: {
          type: "apiKey",
          in: "cookie",
          name: "leeway",
          description: "What a browser has after an invitation.",
        },
        token: { type: "http", scheme: "bearer", description: "What an app has." },
      },
    },
  };
}

/** Every status that an operation refuses with, in order. */
function refusalsOf({ who, path, body, refusals, matches }: Operation): readonly number[] {
  const known = who === "anyone" ? [] : [401];
  const named = path.includes("{") ? [404] : [];
  const read = body === undefined ? [] : [413, 415];
  const all = [...known, ...named, ...read, ...refusals, ...(matches ? [412] : [])];
  return [...new Set([...all, 400, 403, 421, 422, 429, 500, 503, 504])].sort((a, b) => a - b);
}

/** Names of the parameters in a path. */
function parametersIn(path: string): readonly string[] {
  return [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name!);
}

function described(id: string, operation: Operation): SchemaObject {
  const { says, who, path, query = {}, body, answer, method, matches } = operation;
  const inPath = parametersIn(path).map((name) => ({ name, in: "path", required: true, schema: { type: "string" } }));
  const inQuery = Object.entries(query).map(([name, schema]) => ({ name, in: "query", schema }));
  const inHeader = [...(method === "get" ? ["If-None-Match"] : []), ...(matches ? ["If-Match"] : [])].map((name) => ({
    name,
    in: "header",
    schema: { type: "string" },
  }));
  const refusals = refusalsOf(operation).map((status) => [
    `${status}`,
    { description: REFUSALS[status], content: { "application/problem+json": { schema: ref(refusalName(status)) } } },
  ]);
  return {
    operationId: id,
    summary: says,
    security: who === "anyone" ? [] : [{ session: [] }, { token: [] }],
    ...(inPath.length + inQuery.length + inHeader.length === 0
      ? {}
      : { parameters: [...inPath, ...inQuery, ...inHeader] }),
    ...(body === undefined
      ? {}
      : {
          requestBody: {
            required: true,
            content: Object.fromEntries(Object.entries(body).map(([type, { schema }]) => [type, { schema }])),
          },
        }),
    responses: {
      [answer.status]: {
        description: answer.says,
        ...(answer.type === undefined ? {} : { content: { [answer.type]: { schema: answer.schema } } }),
      },
      ...(method === "get" && answer.type === "application/json"
        ? { 304: { description: "The answer is what the header If-None-Match names." } }
        : {}),
      ...Object.fromEntries(refusals),
    },
  };
}
