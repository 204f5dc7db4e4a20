/**
 * Needs a build. Prints what importing leeway costs a browser application: minified and gzipped, our own code and all libraries counted. First what an
 * application does, then each door, whole. What is loaded later, if at all, stands beside it; packages that an application installs itself are not counted.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { DOORS } from "./doors.mjs";

const dist = fileURLToPath(new URL("../dist/", import.meta.url));
const { peerDependencies } = JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8"));
const peers = Object.keys(peerDependencies).flatMap((name) => [name, `${name}/*`]);

/** What Node alone can import. */
const NODE_ONLY = /^\.\/(?:node$|server$|store\/(?:sqlite|postgres)$)/;

const rows = [
  [
    "open a compiled course, assess, decide",
    `export { openCourse, rungs, scoreOf, assess, decide } from "./index.js";`,
  ],
  ["assess a take", `export { assess } from "./index.js";`],
  ["decide", `export { decide, fold, readJournal } from "./index.js";`],
  ["read a course", `export { readCurriculum, rungs, scoreOf } from "./index.js";`],
  ...DOORS.filter(({ door }) => !NODE_ONLY.test(door)).map(({ door, file }) => [
    `leeway${door.slice(1)}`,
    `export * from "./${file}.js";`,
  ]),
];

console.log(`${"kB, minified and gzipped, everything counted".padEnd(44)}  at once   later`);
for (const [what, contents] of rows) {
  const { atOnce, later } = await size(contents);
  console.log(`${what.padEnd(44)}  ${kB(atOnce)}  ${later === 0 ? "" : kB(later)}`.trimEnd());
}

/** Bytes of these exports: of what an application loads with them, and of what they load by themselves when it is needed. */
async function size(contents) {
  const { metafile, outputFiles } = await build({
    bundle: true,
    external: peers,
    format: "esm",
    legalComments: "none",
    logLevel: "error",
    metafile: true,
    minify: true,
    outdir: "out",
    platform: "browser",
    splitting: true,
    stdin: { contents, loader: "ts", resolveDir: dist },
    target: "es2022",
    write: false,
  });
  const bytes = new Map(
    Object.keys(metafile.outputs).map((path, i) => [path, gzipSync(outputFiles[i].contents, { level: 9 }).length]),
  );
  const entry = Object.entries(metafile.outputs).find(([, { entryPoint }]) => entryPoint === "<stdin>")[0];
  const needed = new Set();
  const add = (path) => {
    if (needed.has(path)) return;
    needed.add(path);
    for (const { kind, path: other, external } of metafile.outputs[path].imports)
      if (kind === "import-statement" && !external) add(other);
  };
  add(entry);
  const sum = (paths) => [...paths].reduce((total, path) => total + bytes.get(path), 0);
  return { atOnce: sum(needed), later: sum(bytes.keys()) - sum(needed) };
}

function kB(amount) {
  return (amount / 1000).toFixed(1).padStart(7);
}
