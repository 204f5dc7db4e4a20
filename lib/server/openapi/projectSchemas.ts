import { readFileSync } from "node:fs";
import type { SchemaObject } from "../operations/model.js";

/** Where the package has its schemas. */
const FOLDER = new URL("../../../schemas/", import.meta.url);

/** Name in the document -> file of the schema. */
const FILES: Readonly<Record<string, string>> = {
  CompiledCourse: "compiled",
  Curriculum: "curriculum",
  JournalEvent: "event",
  Finding: "finding",
  Report: "report",
  Score: "score",
  Standing: "standing",
  Take: "take",
};

/**
 * The schemas of leeway as components of an OpenAPI document: each file under its name, each of its definitions beside it as `Name.definition`, and
 * references rewritten to there. Nothing of what they say is changed.
 */
export function projectSchemas(): Readonly<Record<string, SchemaObject>> {
  const names = new Map(Object.entries(FILES).map(([name, file]) => [`${file}.schema.json`, name]));
  const found: Record<string, SchemaObject> = {};
  for (const [name, file] of Object.entries(FILES)) {
    const text = readFileSync(new URL(`${file}.schema.json`, FOLDER), "utf8");
    const { $id: _id, $schema: _dialect, $defs = {}, ...root } = JSON.parse(text) as SchemaObject;
    found[name] = moved(root, name, names) as SchemaObject;
    for (const [each, definition] of Object.entries($defs as Record<string, SchemaObject>))
      found[`${name}.${each}`] = moved(definition, name, names) as SchemaObject;
  }
  return found;
}

/** A piece of the schema called `own`, its references leading to components. */
function moved(piece: unknown, own: string, names: ReadonlyMap<string, string>): unknown {
  if (Array.isArray(piece)) return piece.map((each) => moved(each, own, names));
  if (piece === null || typeof piece !== "object") return piece;
  return Object.fromEntries(
    Object.entries(piece).map(([key, value]) => [
      key,
      key === "$ref" && typeof value === "string" ? placeOf(value, own, names) : moved(value, own, names),
    ]),
  );
}

function placeOf(reference: string, own: string, names: ReadonlyMap<string, string>): string {
  const [file = "", pointer = ""] = reference.split("#");
  const name = file === "" ? own : names.get(file.split("/").at(-1)!);
  if (name === undefined) throw new Error(`no schema is known for ${reference}`);
  const definition = pointer.replace(/^\/\$defs\//, "");
  return `#/components/schemas/${definition === "" ? name : `${name}.${definition}`}`;
}
