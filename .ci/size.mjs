/** Prints what importing leeway costs a browser application: minified and gzipped, with and without what others wrote. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";

const lib = fileURLToPath(new URL("../lib/", import.meta.url));

/** Our own aim for the core without validators and without other people's libraries. */
const AIM_KB = 25;

const withoutValidators = {
  name: "without validators",
  setup: (builder) => {
    builder.onLoad({ filter: /generated[\\/]validate-.*\.js$/ }, () => ({
      contents: "export const validate = () => true;",
      loader: "js",
    }));
  },
};

const { exports } = JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8"));
// What a browser can import; "./node" is for Node alone.
const folders = Object.entries(exports).filter(([door]) => /^\.\/\w+$/.test(door) && door !== "./node");
const uses = [
  ["everything", `export * from "./index.js";`],
  ["assess a take", `export { assess } from "./index.js";`],
  ["decide", `export { decide, fold, readJournal } from "./index.js";`],
  ["read a course", `export { readCurriculum, rungs, scoreOf } from "./index.js";`],
  ...folders.map(([door, { default: file }]) => [
    `leeway${door.slice(1)}`,
    `export * from "${file.replace("./dist/", "./")}";`,
  ]),
];

console.log("kB, minified and gzipped  our own code  with validators  with libraries");
for (const [what, contents] of uses) {
  const own = await size(contents, { packages: "external", plugins: [withoutValidators] });
  const validators = await size(contents, { packages: "external" });
  const all = await size(contents, {});
  console.log(`${what.padEnd(24)}  ${kB(own, 12)}  ${kB(validators, 15)}  ${kB(all, 14)}`);
  if (what === "everything") {
    const verdict = own / 1000 <= AIM_KB ? "met" : "not met";
    console.log(`${" ".repeat(26)}(aim: at most ${AIM_KB}, ${verdict})`);
  }
}

/** Bytes of these exports, minified and gzipped. */
async function size(contents, options) {
  const result = await build({
    bundle: true,
    conditions: ["browser"],
    format: "esm",
    legalComments: "none",
    logLevel: "error",
    minify: true,
    platform: "browser",
    stdin: { contents, loader: "ts", resolveDir: lib },
    target: "es2022",
    write: false,
    ...options,
  });
  return gzipSync(result.outputFiles[0].contents, { level: 9 }).length;
}

function kB(bytes, width) {
  return (bytes / 1000).toFixed(1).padStart(width);
}
