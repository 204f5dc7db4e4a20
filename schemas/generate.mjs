/**
 * Writes lib/schema/generated from schemas/*.schema.json: for each schema its TypeScript types, its validator and its check, and a
 * door to all of them; and lib/server/generated, the validators of what a school's server is asked. `--check` writes nothing and fails when a file is not what it
 * would write.
 */
import { mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { compileRequests } from "./generate/requests.mjs";
import { readSchemas } from "./generate/sources.mjs";
import { compileTypes } from "./generate/types.mjs";
import { compileValidators } from "./generate/validators.mjs";

const FOLDER = new URL("../lib/schema/generated/", import.meta.url);
const SERVER_FOLDER = new URL("../lib/server/generated/", import.meta.url);
const NOTICE = "// Generated from schemas/ by `npm run types`; change the schema instead.\n";
const SERVER_NOTICE =
  "// Generated from the table of operations by `npm run types`; change lib/server/operations instead.\n";

const isCheck = process.argv.includes("--check");
const put = isCheck ? compareWithDisk : write;
// The table of operations imports what is generated from the schemas.
await put(FOLDER, await generate(await readSchemas()));
await put(SERVER_FOLDER, await generateRequests());

/** The validators of requests: name -> text. */
async function generateRequests() {
  const files = new Map();
  for (const [name, source] of await compileRequests()) {
    files.set(`${name}.js`, SERVER_NOTICE + source);
    const lines = exportsIn(source).map((each) => `export declare const ${each}: Validator;\n`);
    files.set(
      `${name}.d.ts`,
      `${SERVER_NOTICE}import type { Validator } from "../../schema/index.js";\n\n${lines.join("")}`,
    );
  }
  return files;
}

/** The names that the text of a module exports. */
function exportsIn(source) {
  return [...source.matchAll(/export\{([^}]*)\}/g)]
    .flatMap(([, names]) => names.split(",").map((each) => each.split(" as ").at(-1).trim()))
    .sort();
}

/** The generated files: name -> text. */
async function generate(schemas) {
  const files = new Map();
  const owners = new Map();
  const door = [];
  for (const name of schemas.keys()) {
    const { names, source } = await compileTypes(schemas, name);
    for (const type of names) {
      if (owners.has(type))
        throw new Error(
          `the title "${type}" is used in ${owners.get(type)}.schema.json and ${name}.schema.json: use $ref, or another title`,
        );
      owners.set(type, name);
    }
    files.set(`${name}.ts`, `${NOTICE}\n${source}`);
    files.set(`check-${name}.ts`, check(name, schemas.get(name).title));
    door.push(
      `export { ${checkName(name)} } from "./check-${name}.js";`,
      `export type { ${names.join(", ")} } from "./${name}.js";`,
    );
  }
  for (const [name, source] of await compileValidators(schemas)) {
    files.set(`validate-${name}.js`, NOTICE + source);
    files.set(
      `validate-${name}.d.ts`,
      `${NOTICE}import type { Validator } from "../checked.js";\nexport declare const validate: Validator;\n`,
    );
  }
  files.set("index.ts", `${NOTICE}\n${door.join("\n")}\n`);
  return files;
}

function check(name, type) {
  return `${NOTICE}
import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { ${type} } from "./${name}.js";
import { validate } from "./validate-${name}.js";

/**
 * The value as a \`${type}\`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * ${checkName(name)}({}).ok // false
 */
export function ${checkName(name)}(value: unknown): Result<${type}> {
  return checked<${type}>(value, validate);
}
`;
}

function checkName(name) {
  return `check${name.charAt(0).toUpperCase()}${name.slice(1)}`;
}

async function write(folder, files) {
  await mkdir(folder, { recursive: true });
  for (const file of await readdir(folder)) if (!files.has(file)) await rm(new URL(file, folder));
  for (const [file, text] of files) await writeFile(new URL(file, folder), text);
}

async function compareWithDisk(folder, files) {
  const present = await readdir(folder).catch(() => []);
  const stale = present.filter((file) => !files.has(file));
  for (const [file, text] of files) {
    const found = await readFile(new URL(file, folder), "utf8").catch(() => undefined);
    if (found !== text) stale.push(file);
  }
  if (stale.length === 0) return;
  process.stderr.write(`${folder.pathname} is not current (${stale.join(", ")}); run: npm run types\n`);
  process.exitCode = 1;
}
