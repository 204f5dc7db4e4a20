/**
 * Builds dist/. The library: one file for each door of package.json and the parts they share, with declarations. The command line in dist/cli: with
 * everything it needs inside, but for what its licence or its machine code keeps out, and cut so that a command loads only what it runs.
 * `--scripts` leaves the declarations out: enough to run the command line.
 */
import { chmodSync, cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";
import { build, transform } from "esbuild";
import { parseAst } from "rolldown/parseAst";
import { direct } from "./direct.mjs";
import { DOORS } from "./doors.mjs";
import { merge, mergeSmall } from "./merge.mjs";
import { noticesOf } from "./notices.mjs";
import { pure } from "./pure.mjs";
import { severitiesAlone } from "./severities.mjs";
import { shrunk } from "./shrink.mjs";
import { topicsBut, topicsOnly, withoutProblems } from "./topics.mjs";

const root = fileURLToPath(new URL("../", import.meta.url));
const lib = `${root}lib/`;
const { dependencies, peerDependencies } = JSON.parse(readFileSync(`${root}package.json`, "utf8"));

/** What the package installs, and what a user may add. */
const installed = Object.keys(dependencies);
const peers = Object.keys(peerDependencies);

/** Kept out of the command line too: LGPL code inside (the engraver, and the decoders of MP3 and Ogg Vorbis), machine code, a pool that starts its own file. */
const KEPT_OUT = ["verovio", "mpg123-decoder", "@wasm-audio-decoders/ogg-vorbis", "better-sqlite3", "tinypool"];

/** Files that code finds by `new URL(..., import.meta.url)`: where they are from lib, and where in dist. */
const PLACES = {
  "package.json": "package.json",
  "": "",
  "lib/render/sheet/fonts/": "dist/fonts/",
  "schemas/": "schemas/",
  "lib/node/batch/worker.js": "./worker.js",
  "lib/node/rehearsal/rehearser.js": "./rehearser.js",
  "lib/server/hearing/hearer.js": "./hearer.js",
  "lib/browser/input/capture.js": "./browser/capture.js",
  "lib/browser/take/hearing.js": "./browser/hearing.js",
  "dist/page.json.br": "dist/page.json.br",
  "dist/class.json.br": "dist/class.json.br",
  "dist/further.json.br": "dist/further.json.br",
  "dist/browser/": "dist/browser/",
  "dist/words/": "dist/words/",
};

/** What Node's threads begin with. */
const THREADS = {
  worker: `${lib}node/batch/worker.ts`,
  rehearser: `${lib}node/rehearsal/rehearser.ts`,
  hearer: `${lib}server/hearing/hearer.ts`,
};

/** What the command line takes from the library as it is built, and not a second time: a school's server, with what it answers by. */
const SHARED = { "../../server/index.js": "../server.js" };
/** A package that both load, on demand, from one file. */
const STRETCH = { package: "signalsmith-stretch", name: "stretch" };

/** Packages of the older kind of module ask for Node's own modules by `require`, and where they are by `__dirname`. */
const REQUIRE =
  'import { createRequire as requireForBundle } from "node:module"; const require = requireForBundle(import.meta.url), __dirname = import.meta.dirname;';

const { hearer: _ofServer, ...THREADS_OF_COMMANDS } = THREADS;

const doors = Object.fromEntries(DOORS.map(({ file, source }) => [file, source]));

/**
 * No doors, but places at which shared parts are cut. Who opens a compiled course, assesses and decides does without the reader of YAML, which is behind
 * the same doors; a part that imports `yaml` carries it along whole.
 */
const seams = {
  core: `${root}.ci/core.ts`,
  // Beside the folder of the languages it names, wherever the door of words is.
  languages: `${lib}words/generated/languages.ts`,
};

/** Parts up to this size, in bytes, share one file: our choice. Larger ones of the core would cost whoever takes only that; nobody bundles the command line again. */
const SMALL = { core: 9000, others: 40_000 };

/** What the practice page never says: what the command line, a server and the page of a class say. */
const NOT_ON_PAGE = [
  "cli",
  "cli-problem",
  "code",
  "node-problem",
  "publication",
  "reason",
  "record-problem",
  "rehearsal",
  "school",
  "server",
  "server-problem",
];

/** What the page of a class says. */
const ON_CLASS_PAGE = [
  "chart",
  "page",
  "progress",
  "recall",
  "report",
  "school",
  "setting",
  "take",
  "trend",
  "words-problem",
];

/** The further messages of each language, packed as one file: a fifth of the bytes, and few read them. An object of language tags and modules, packed by Brotli (RFC 7932). */
const FURTHER = "further.json.br";

/** What stands in the place of each import of further messages, in the library and the command line. No bundler sees what it reads: elsewhere than on Node there is nothing to read. */
const UNPACK = `
async function unpacked(tag) {
  const { getBuiltinModule } = globalThis.process;
  const name = "NAME";
  try {
    const bytes = getBuiltinModule("node:fs").readFileSync(new URL(name, import.meta.url));
    const modules = JSON.parse(getBuiltinModule("node:zlib").brotliDecompressSync(bytes).toString("utf8"));
    return await import(/* @vite-ignore */ /* webpackIgnore: true */ "data:text/javascript," + encodeURIComponent(modules[tag]));
  } catch {
    // An application that is one file of its own has left it behind.
    return {};
  }
}
`;

/** The inputs of what is no bundle. */
const NOTHING = { metafile: { inputs: {} } };

rmSync(`${root}dist`, { force: true, recursive: true });
const built = await Promise.all([
  buildLibrary(),
  buildCommandLine(),
  buildBrowserFiles(),
  ...buildPage(),
  buildLanguages(),
  packFurther().then(() => NOTHING),
]);
writeFileSync(
  `${root}dist/NOTICES.txt`,
  noticesOf(
    root,
    built.flatMap(({ metafile }) => Object.keys(metafile.inputs)),
  ),
);
cpSync(`${lib}render/sheet/fonts`, `${root}dist/fonts`, { recursive: true });
cpSync(`${lib}page/style/icon.svg`, `${root}dist/page/icon.svg`);
for (const page of ["page", "class"]) pack(`${root}dist/${page}`);
chmodSync(`${root}dist/cli/main.js`, 0o755);
if (!process.argv.includes("--scripts")) await buildDeclarations();

async function buildLibrary() {
  const built = await build({
    ...common("dist/", furtherPacked("dist/")),
    entryPoints: { ...doors, ...seams, ...THREADS, [STRETCH.name]: STRETCH.package },
    platform: "neutral",
    mainFields: ["module", "main"],
    external: ["node:*", ...[...installed, ...peers].flatMap((name) => [name, `${name}/*`])],
  });
  await mergeSmall(`${root}dist`, { metafile: built.metafile, most: SMALL.core, name: "small.js" });
  await mergeSmall(`${root}dist`, {
    metafile: built.metafile,
    most: SMALL.others,
    name: "others.js",
    apart: ".ci/core.ts",
  });
  // The seams have done their work.
  for (const seam of Object.keys(seams)) rmSync(`${root}dist/${seam}.js`);
  await withoutBlanks(`${root}dist/`);
  return built;
}

/** Takes blanks out of the files of a folder: all that nobody reads of the validators, and of each packages' or generated file, which the bundler names over it; of the rest those at the beginnings of lines. */
async function withoutBlanks(folder) {
  const without = async (code) => (await transform(code, { legalComments: "inline", minifyWhitespace: true })).code;
  for (const name of readdirSync(folder).filter((each) => each.endsWith(".js"))) {
    const text = readFileSync(folder + name, "utf8");
    const pieces = text.split(/^(?=\/\/ (?:lib|node_modules)\/\S+$)|^(?=export \{$)/m);
    const isUnread = (piece) => /^\/\/ (?:node_modules\/|\S+\/generated\/)/.test(piece);
    const shrunkPieces = pieces.map((piece) => (isUnread(piece) ? without(piece) : piece));
    writeFileSync(
      folder + name,
      name === "schema.js" ? await without(text) : withoutIndents((await Promise.all(shrunkPieces)).join("")),
    );
  }
}

/** A script without the blanks at the beginnings of its lines, where these are not inside a text. */
function withoutIndents(text) {
  const kept = [];
  const look = (node) => {
    if (node?.type === "TemplateElement") kept.push(node);
    for (const child of Object.values(node)) if (typeof child === "object" && child !== null) look(child);
  };
  look(parseAst(text));
  let at = 0;
  const isKept = (place) => {
    while (at < kept.length && kept[at].end < place) at++;
    return at < kept.length && kept[at].start < place;
  };
  kept.sort((a, b) => a.start - b.start);
  return text.replaceAll(/^[ \t]+/gm, (blanks, place) => (isKept(place) ? blanks : ""));
}

/** What a browser loads by itself: the worklet that records and the worker that listens, each one file, as a content security policy may allow. */
function buildBrowserFiles() {
  return build({
    ...common("dist/browser/"),
    entryPoints: {
      capture: `${lib}browser/input/capture.worklet.ts`,
      hearing: `${lib}browser/take/hearing.worker.ts`,
    },
    format: "iife",
    minify: true,
    platform: "browser",
    splitting: false,
    external: peers.flatMap((name) => [name, `${name}/*`]),
  });
}

/** A plugin: our commands are no programs of their own, so that what reads the command line has none to start. */
function startsNothing() {
  return {
    name: "starts nothing",
    setup: (builder) => {
      builder.onResolve({ filter: /^node:child_process$/ }, ({ importer, path }) =>
        /[\\/]commander[\\/]/.test(importer) ? { path, namespace: "nothing" } : undefined,
      );
      builder.onLoad({ filter: /.*/, namespace: "nothing" }, () => ({ contents: "" }));
    },
  };
}

async function packFurther() {
  const folder = `${lib}words/generated/`;
  const files = readdirSync(folder).filter((file) => file.endsWith("-further.ts"));
  const modules = files.map(async (file) => {
    const { code } = await transform(await readFile(folder + file, "utf8"), { loader: "ts", minify: true });
    return [file.replace("-further.ts", ""), code];
  });
  mkdirSync(`${root}dist`, { recursive: true });
  writeFileSync(`${root}dist/${FURTHER}`, brotli(JSON.stringify(Object.fromEntries(await Promise.all(modules)))));
}

/** A plugin that has further messages read from where they are packed. */
function furtherPacked(place) {
  return {
    name: "further packed",
    setup: (builder) => {
      builder.onLoad({ filter: /[\\/]words[\\/]generated[\\/]further\.ts$/ }, async ({ path }) => {
        const text = (await readFile(path, "utf8"))
          .replaceAll(/\(\) => import\("\.\/([\w-]+)-further\.js"\)/g, '() => unpacked("$1")')
          .replace(/= (\{\n[^}]*\});/, "= /* @__PURE__ */ (() => globalThis.process?.getBuiltinModule ? $1 : {})();");
        const name = `${place === "dist/cli/" ? "../" : "./"}${FURTHER}`;
        return { contents: text + UNPACK.replace("NAME", name), loader: "ts" };
      });
    },
  };
}

/** A plugin that unpacks fonts on the web (WOFF2, Brotli inside) by Node's own hand: the package that a font library asks for has half a megabyte of dictionary. */
function brotliOfNode() {
  const name = "brotli/decompress.js";
  return {
    name: "brotli of Node",
    setup: (builder) => {
      builder.onResolve({ filter: /^brotli\/decompress\.js$/ }, () => ({ path: name, namespace: "node" }));
      builder.onLoad({ filter: /.*/, namespace: "node" }, () => ({
        contents:
          'import { brotliDecompressSync } from "node:zlib"; export default (bytes) => brotliDecompressSync(bytes);',
      }));
    },
  };
}

/** A plugin that leaves to dist what the command line shares with the library. */
function sharedApart() {
  return {
    name: "shared apart",
    setup: (builder) => {
      builder.onResolve({ filter: /^\.\.\/server\.js$/ }, ({ path }) => ({ path, external: true }));
      builder.onResolve({ filter: new RegExp(`^${STRETCH.package}$`) }, () => ({
        path: `../${STRETCH.name}.js`,
        external: true,
      }));
    },
  };
}

async function buildCommandLine() {
  const command = common("dist/cli/", withoutProblems, sharedApart());
  const built = await build({
    ...command,
    entryPoints: { main: `${lib}cli/main.ts`, demo: `${lib}cli/demo.ts`, ...THREADS_OF_COMMANDS },
    platform: "node",
    // Names stay: an error says its class by name, and its trace where it was; to keep them beside short ones is longer, and slower to start.
    minifySyntax: true,
    minifyWhitespace: true,
    mainFields: ["module", "main"],
    external: [...KEPT_OUT.flatMap((name) => [name, `${name}/*`]), "pg-native"],
    plugins: [startsNothing(), brotliOfNode(), furtherPacked("dist/cli/"), ...command.plugins],
    // The form for Node is of the older kind of module, of which nothing can be left out.
    alias: { yaml: `${root}node_modules/yaml/browser/index.js` },
    banner: { js: REQUIRE },
  });
  await merge(`${root}dist/cli`, {
    metafile: built.metafile,
    always: ["lib/cli/runInProcess.ts", "lib/cli/input/courseLanguage.ts", "lib/words/generated/en.ts"],
    sources: ["lib/cli/check/check.ts", "lib/cli/course/assess.ts"],
    // The version is told without any of it.
    apart: "lib/cli/main.ts",
    banner: REQUIRE,
    name: "usual",
  });
  await mergeSmall(`${root}dist/cli`, {
    metafile: built.metafile,
    most: SMALL.others,
    name: "small.js",
    apart: "lib/cli/main.ts",
    banner: REQUIRE,
    minify: true,
  });
  return built;
}

/** Each language but English in one file, which the library, the command line and the page all load; see `languagesApart`. */
function buildLanguages() {
  const folder = `${lib}words/generated/`;
  const tags = readdirSync(folder).filter((file) => /^[a-z]{2}(?:-[A-Z]{2})?\.ts$/.test(file) && file !== "en.ts");
  return build({
    ...common("dist/words/"),
    entryPoints: tags.map((file) => `${folder}${file}`),
    minify: true,
    platform: "neutral",
    splitting: false,
  });
}

/**
 * A plugin that leaves languages out of a build: they are found from its folder in dist/words. A page in one file has the words it needs put before
 * its script by whoever writes it (`singlePage`), and finds them as a global.
 */
function languagesApart(place, isSingle) {
  const up = place === "dist/cli/" ? "../words/" : "./words/";
  return {
    name: "languages apart",
    setup: (builder) => {
      builder.onResolve({ filter: /^\.\/[a-z]{2}(?:-[A-Z]{2})?(?:-further)?\.js$/ }, ({ importer, path }) => {
        if (!/words\/generated\/(?:languages|further)\.ts$/.test(importer) || path === "./en.js") return undefined;
        if (isSingle) return { path, namespace: path.endsWith("-further.js") ? "no words" : "global words" };
        return { path: `${up}${path.slice(2)}`, external: true };
      });
      builder.onLoad({ filter: /.*/, namespace: "no words" }, () => ({
        contents: "export const messages = undefined;",
      }));
      builder.onLoad({ filter: /.*/, namespace: "global words" }, () => ({
        contents: "export const { language, messages } = globalThis.leewayWords;",
      }));
    },
  };
}

/**
 * The practice page: cut into what each view needs; in one piece, for a page in one file; and what keeps it for when there is no network. The page of a
 * class stands apart, so that neither is cut by what the other needs.
 */
function buildPage() {
  const page = {
    ...common("dist/page/", topicsBut(NOT_ON_PAGE), withoutProblems),
    minify: true,
    platform: "browser",
    mainFields: ["browser", "module", "main"],
    legalComments: "none",
    // A page says itself where its worklet and its worker are.
    logOverride: { "empty-import-meta": "silent" },
    external: [...peers.flatMap((name) => [name, `${name}/*`]), "node:*"],
  };
  const whole = { splitting: false, format: "iife" };
  return [
    build({ ...page, entryPoints: { app: `${lib}page/app/main.ts`, page: `${lib}page/style/page.css` } }),
    build({
      ...page,
      ...whole,
      entryPoints: { single: `${lib}page/app/main.ts` },
      plugins: [languagesApart("dist/page/", true), ...page.plugins],
    }),
    build({ ...page, ...whole, entryPoints: { "service-worker": `${lib}page/worker/serviceWorker.ts` } }),
    build({
      ...page,
      ...common("dist/class/", topicsOnly(ON_CLASS_PAGE), withoutProblems),
      splitting: false,
      entryPoints: { class: `${lib}page/class/main.ts` },
    }),
  ];
}

/** `before`: plugins that come first. */
function common(place, ...before) {
  return {
    bundle: true,
    chunkNames: "part-[hash]",
    format: "esm",
    logLevel: "warning",
    metafile: true,
    outdir: `${root}${place}`,
    plugins: [
      languagesApart(place),
      ...before,
      sources((text, path) => pure(direct(severitiesAlone(placed(text, path, place), path), path), path)),
      shrunk,
    ],
    splitting: true,
    target: "es2022",
    tsconfig: `${lib}tsconfig.json`,
  };
}

/** The files of a page are in the package as one (JSON packed by Brotli, RFC 7932), as only the commands that write or serve a page read them. */
function pack(folder) {
  const files = Object.fromEntries(
    readdirSync(folder).map((name) => [name, readFileSync(`${folder}/${name}`, "utf8")]),
  );
  writeFileSync(`${folder}.json.br`, brotli(JSON.stringify(files)));
  rmSync(folder, { recursive: true });
}

function brotli(text) {
  return brotliCompressSync(text, {
    params: {
      [constants.BROTLI_PARAM_LGWIN]: constants.BROTLI_MAX_WINDOW_BITS,
      [constants.BROTLI_PARAM_SIZE_HINT]: text.length,
    },
  });
}

/** A plugin that changes each file of lib before it is read. */
function sources(change) {
  return {
    name: "sources",
    setup: (builder) => {
      builder.onLoad({ filter: /\.ts$/ }, async ({ path }) =>
        path.startsWith(lib) ? { contents: change(await readFile(path, "utf8"), path), loader: "ts" } : undefined,
      );
    },
  };
}

/** The text of a file of lib with its places beside it as they are in dist, where all files of a build are in one folder. */
function placed(text, path, place) {
  const shared = place === "dist/cli/" && path.startsWith(`${lib}cli/`) ? Object.entries(SHARED) : [];
  const written = shared.reduce((all, [from, to]) => all.replaceAll(`from "${from}"`, `from "${to}"`), text);
  return written.replace(/new URL\("([^"]+)", import\.meta\.url\)/g, (_, written) => {
    const target = resolve(dirname(path), written).slice(root.length) + (written.endsWith("/") ? "/" : "");
    const found = PLACES[target === "/" ? "" : target];
    if (found === undefined) throw new Error(`${path}: no place in dist/ is known for ${target}`);
    const up = place
      .split("/")
      .slice(1)
      .map(() => "../")
      .join("");
    return `new URL("${found.startsWith("./") ? found : `${up}${found}`}", import.meta.url)`;
  });
}

/** Declarations of the doors, bundled as the scripts are: a type that two doors give is declared once. */
async function buildDeclarations() {
  const [{ build: bundle }, { dts }] = await Promise.all([import("rolldown"), import("rolldown-plugin-dts")]);
  await bundle({
    input: doors,
    cwd: root,
    external: (id) => !id.startsWith(".") && !id.startsWith("/"),
    checks: { pluginTimings: false },
    logLevel: "warn",
    output: {
      chunkFileNames: "[name].js",
      // What two doors give is in one file: cut by who gives it, it is thirty small ones, and whoever imports the core reads most of them.
      codeSplitting: { groups: [{ name: "types.d", minShareCount: 2 }] },
      dir: `${root}dist`,
      format: "esm",
    },
    plugins: dts({ emitDtsOnly: true, oxc: true, tsconfig: `${lib}tsconfig.json` }),
  });
}
