import { compile } from "json-schema-to-typescript";
import ts from "typescript";
import { target } from "./sources.mjs";

/** TypeScript types of one schema: `{ source, names }`, everything readonly, definitions of other schemas imported. */
export async function compileTypes(schemas, name) {
  const imports = new Map();
  const schema = forTypes(schemas.get(name), { imports, name, schemas });
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
function forTypes(schema, context) {
  if (Array.isArray(schema)) return schema.map((part) => forTypes(part, context));
  if (schema === null || typeof schema !== "object") return schema;
  if (typeof schema.$ref === "string") return reference(schema, context);
  const copy = {};
  for (const [key, value] of Object.entries(schema)) {
    if (["default", "$id", "$schema"].includes(key)) continue;
    if (key === "$defs") {
      // A definition without a title is written out where it is used.
      const named = Object.entries(value).filter(([, piece]) => piece.title !== undefined);
      copy.$defs = Object.fromEntries(named.map(([name, piece]) => [name, forTypes(piece, context)]));
      continue;
    }
    copy[key] = ["examples", "enum", "const"].includes(key) ? value : forTypes(value, context);
  }
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

function reference({ $ref, ...beside }, context) {
  const { owner, piece } = target(context.schemas, context.name, $ref);
  if (piece.title === undefined) return forTypes({ ...piece, ...beside }, { ...context, name: owner });
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
