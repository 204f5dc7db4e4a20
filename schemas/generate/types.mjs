import { compile } from "json-schema-to-typescript";
import ts from "typescript";
import { target } from "./sources.mjs";

/** Units that a `$comment` of a schema may name, and the types of lib/base that say them. */
const UNITS = {
  s: "Seconds",
  ms: "Milliseconds",
  "ms/√beat": "MillisecondsPerRootBeat",
  beat: "Beats",
  bpm: "Bpm",
  "%": "Percent",
};

/** TypeScript types of one schema: `{ source, names }`, everything readonly, definitions of other schemas imported. */
export async function compileTypes(schemas, name) {
  const imports = new Map();
  const units = new Set();
  const schema = forTypes(schemas.get(name), { imports, name, schemas, units });
  const root = schemas.get(name).title;
  const options = {
    additionalProperties: false,
    bannerComment: "",
    format: true,
    ignoreMinAndMaxItems: true,
    style: { printWidth: 120 },
    unreachableDefinitions: true,
  };
  let text = await compile(schema, root, options);
  if (schema.properties === undefined) {
    // Definitions come out only beside an object: a choice gets them from an empty one, which is then taken away.
    const bearer = { title: "Bearer", type: "object", additionalProperties: false, $defs: schema.$defs };
    text += (await compile(bearer, "Bearer", options)).replace(/^export interface Bearer \{\}\n/m, "");
  }
  const body = readonly(withoutNoise(text));
  const lines = [...imports].map(
    ([owner, names]) => `import type { ${[...names].sort().join(", ")} } from "./${owner}.js";\n`,
  );
  if (units.size > 0) lines.push(`import type { ${[...units].sort().join(", ")} } from "../../base/index.js";\n`);
  const names = [...body.matchAll(/^export (?:interface|type) (\w+)/gm)].map((match) => match[1]).sort();
  return { names, source: lines.sort().join("") + body };
}

/** Without the library's lines on who refers to whom. */
function withoutNoise(text) {
  return text
    .replaceAll(/^ \* (?:via the `definition`|This interface was referenced by).*\n/gm, "")
    .replaceAll(/^ \* ?\n(?= \*\/)/gm, "");
}

/** The schema as json-schema-to-typescript reads it best: a titled definition is one named type, tuples are written the older way. */
function forTypes(schema, around) {
  if (Array.isArray(schema)) return schema.map((part) => forTypes(part, around));
  if (schema === null || typeof schema !== "object") return schema;
  if (typeof schema.$ref === "string") return reference(schema, around);
  // A unit holds for the number itself, in whichever branch of a choice it is.
  const context = { ...around, unit: /^unit: (.+)$/.exec(schema.$comment ?? "")?.[1] ?? around.unit };
  const types = [schema.type].flat();
  const isNumber = types.includes("number") || types.includes("integer");
  const copy = {};
  for (const [key, value] of Object.entries(schema)) {
    if (["default", "$id", "$schema", "$comment"].includes(key)) continue;
    if (key === "$defs") {
      // A definition without a title is written out where it is used.
      const named = Object.entries(value).filter(([, piece]) => piece.title !== undefined);
      copy.$defs = Object.fromEntries(named.map(([name, piece]) => [name, forTypes(piece, context)]));
      continue;
    }
    copy[key] = ["examples", "enum", "const"].includes(key) ? value : forTypes(value, context);
  }
  if (isNumber && context.unit !== undefined)
    copy.tsType = types.map((type) => (type === "null" ? type : unitType(context))).join(" | ");
  // Of a choice that may be a number, where it is described.
  const ranged = isNumber ? schema : schema.oneOf?.find(({ type }) => type === "number" || type === "integer");
  const range = schema.title === undefined && ranged !== undefined ? rangeText(ranged) : "";
  if (range !== "") copy.description = [schema.description, range].filter(Boolean).join(" ");
  if (Array.isArray(schema.enum) && schema.tsType === undefined)
    copy.tsType = schema.enum.map((value) => JSON.stringify(value)).join(" | ");
  if (Array.isArray(copy.prefixItems)) {
    // The older form of a tuple; the newer one comes out as `never[]`.
    copy.additionalItems = copy.items ?? true;
    copy.items = copy.prefixItems;
    copy.minItems = copy.prefixItems.length;
    delete copy.prefixItems;
  }
  return copy;
}

/**
 * The type of a number that has a unit. Documents are plain data that people, their programs and tests write too, so a plain number is taken
 * everywhere in them; one that says another unit is not, and neither is theirs where another unit is meant.
 */
function unitType({ unit, units }) {
  const type = UNITS[unit];
  if (type === undefined) throw new Error(`no unit is called "${unit}"; units are ${Object.keys(UNITS).join(", ")}`);
  units.add(type).add("Written");
  return `Written<${type}>`;
}

/** The range of a number in words: "0 to 1", "at least 1", "above 0". */
function rangeText({ minimum, maximum, exclusiveMinimum, exclusiveMaximum }) {
  if (minimum !== undefined && maximum !== undefined) return `Range: ${minimum} to ${maximum}.`;
  const bounds = [
    ["at least", minimum],
    ["above", exclusiveMinimum],
    ["at most", maximum],
    ["below", exclusiveMaximum],
  ].filter(([, bound]) => bound !== undefined);
  return bounds.length === 0 ? "" : `Range: ${bounds.map((bound) => bound.join(" ")).join(", ")}.`;
}

function reference({ $ref, ...beside }, context) {
  const { owner, piece } = target(context.schemas, context.name, $ref);
  // What has a unit where it is used is written out there too.
  if (piece.title === undefined || beside.$comment !== undefined) {
    const { title: _, ...untitled } = piece;
    return forTypes({ ...untitled, ...beside }, { ...context, name: owner });
  }
  if (owner !== context.name) context.imports.set(owner, (context.imports.get(owner) ?? new Set()).add(piece.title));
  return { description: beside.description ?? undefined, tsType: piece.title };
}

/** The declarations with `readonly` before every property, array and tuple. */
function readonly(text) {
  const file = ts.createSourceFile("types.ts", text, ts.ScriptTarget.ES2022, true);
  const insertions = [];
  const visit = (node) => {
    if (ts.isPropertySignature(node)) insertions.push([node.name.getStart(file), "readonly "]);
    else if (ts.isIndexSignatureDeclaration(node)) insertions.push([node.getStart(file), "readonly "]);
    else if (ts.isArrayTypeNode(node) || ts.isTupleTypeNode(node)) {
      const nested = ts.isArrayTypeNode(node.parent);
      insertions.push([node.getStart(file), nested ? "(readonly " : "readonly "]);
      if (nested) insertions.push([node.getEnd(), ")"]);
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return insertions
    .map((insertion, order) => [...insertion, order])
    .sort(([a, , i], [b, , j]) => b - a || j - i)
    .reduce((out, [at, extra]) => out.slice(0, at) + extra + out.slice(at), text);
}
