import { readdir, readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";

const FOLDER = new URL("../", import.meta.url);

/** Every `schemas/*.schema.json`, by name (`take` for `take.schema.json`), in order of name. */
export async function readSchemas() {
  const files = (await readdir(FOLDER)).filter((file) => file.endsWith(".schema.json")).sort();
  const read = async (file) => {
    const path = fileURLToPath(new URL(file, FOLDER));
    try {
      return [file.replace(".schema.json", ""), JSON.parse(await readFile(path, "utf8"))];
    } catch (error) {
      throw new Error(`${path}: ${error.message}`);
    }
  };
  return new Map(await Promise.all(files.map(read)));
}

/** What a `$ref` in schema `name` leads to: the schema's name, the key below `$defs` (absent: the whole schema), and the piece itself. */
export function target(schemas, name, ref) {
  const [file, pointer = ""] = ref.split("#");
  const owner = file === "" ? name : file.replace(/^.*\//, "").replace(".schema.json", "");
  const document = schemas.get(owner);
  const definition = /^\/\$defs\/([^/]+)$/.exec(pointer)?.[1];
  const piece = definition === undefined ? document : document?.$defs?.[definition];
  if (piece === undefined || (pointer !== "" && definition === undefined))
    throw new Error(`${name}.schema.json: cannot follow $ref "${ref}"`);
  return { owner, definition, piece };
}
