import { Ajv2020 } from "ajv/dist/2020.js";
import { build } from "esbuild";
import { moduleOf } from "./validators.mjs";

const OPERATIONS = new URL("../../lib/server/operations/operations.ts", import.meta.url).pathname;
const OWN_SCHEMAS = new URL("../../lib/server/openapi/ownSchemas.ts", import.meta.url).pathname;

/**
 * Validators of what a school's server is asked, by the table of its operations: `bodies` by name of the schema, `queries` by operation, and `none` for those that take no query.
 */
export async function compileRequests() {
  const { operations, schemas } = await tables();
  const options = {
    allErrors: true,
    code: { esm: true, lines: false, source: true },
    messages: false,
    strict: false,
    useDefaults: true,
    validateFormats: false,
    verbose: true,
  };
  const all = Object.entries(operations);
  const asked = all.flatMap(([, { body = {} }]) => Object.values(body).flatMap(({ schema }) => nameIn(schema) ?? []));
  const bodies = new Ajv2020(options);
  // A take and what stands in answers alone are judged elsewhere.
  for (const name of new Set(asked)) bodies.addSchema({ ...withoutReferences(schemas[name] ?? {}), $id: name });
  const queries = new Ajv2020({ ...options, coerceTypes: true });
  const asking = [["none", {}], ...all.flatMap(([id, { query }]) => (query === undefined ? [] : [[id, query]]))];
  for (const [id, properties] of asking)
    queries.addSchema({ $id: id, type: "object", additionalProperties: false, properties });
  return [
    ["bodies", await moduleOf(bodies, Object.fromEntries([...new Set(asked)].map((name) => [name, name])))],
    ["queries", await moduleOf(queries, Object.fromEntries(asking.map(([id]) => [id, id])))],
  ];
}

async function tables() {
  const { outputFiles } = await build({
    stdin: {
      contents: `export { OPERATIONS as operations } from ${JSON.stringify(OPERATIONS)}; export { OWN_SCHEMAS as schemas } from ${JSON.stringify(OWN_SCHEMAS)};`,
      resolveDir: import.meta.dirname,
      loader: "ts",
    },
    bundle: true,
    format: "esm",
    packages: "external",
    platform: "node",
    write: false,
  });
  return import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
}

function nameIn({ $ref }) {
  return $ref?.split("/").at(-1);
}

/** A schema that takes anything where it refers to another: a take in a body is judged by its own validator. */
function withoutReferences(schema) {
  if (Array.isArray(schema)) return schema.map(withoutReferences);
  if (schema === null || typeof schema !== "object") return schema;
  if (schema.$ref !== undefined) return {};
  const kept = Object.entries(schema).filter(([key, value]) => key !== "description" || typeof value !== "string");
  return Object.fromEntries(kept.map(([key, value]) => [key, withoutReferences(value)]));
}
