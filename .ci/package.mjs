/**
 * Needs a whole build. Checks the package as a stranger gets it: packs it, lints the tarball, asks whether its types resolve, installs it into an empty
 * project, weighs it, and uses its command line and every door of its import there. It is installed without optional packages, so that what needs one has to say so.
 * `--use` leaves out what any Node finds alike: it packs, installs and uses.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { MIT } from "./notices.mjs";

const root = fileURLToPath(new URL("../", import.meta.url));
const scratch = mkdtempSync(join(tmpdir(), "leeway-package-"));
const npm = process.platform === "win32" ? "npm.cmd" : "npm";
const { dependencies, exports, version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

/** What the package may weigh: our choices, so that an installation takes seconds anywhere. Files are most of all the parts that doors, pages and languages share. */
const MOST = { files: 300, packages: 15, megabytes: 12, seconds: 20 };

/**
 * Most bytes, minified and gzipped with all libraries, of an application that opens a compiled course, assesses and decides. The aim is 45 kB, which
 * it met before a take was compared with other riffs and tempos, looked through for the place where its sound was interrupted, and worded from a catalogue. Half of it reads a take, a tenth is English; the
 * scales, the spelling of names and the curves of gates are not in it.
 */
const MOST_CORE = 55_000;

/** Names of licences that nothing in the package may be under. */
const FORBIDDEN = /GNU (?:Lesser |Library |Affero )?General Public|\bL?GPL(?:v|-)?\d|Mozilla Public License/;

try {
  const [{ filename, files, size }] = JSON.parse(
    run(npm, ["pack", "--ignore-scripts", "--json", "--pack-destination", scratch], root),
  );
  const tarball = join(scratch, filename);
  console.log(`packed ${filename}: ${files.length} files, ${(size / 1000).toFixed(0)} kB`);
  hold("files in the package", files.length, MOST.files);
  install(scratch, tarball);
  if (!process.argv.includes("--use")) await check(tarball);
  useIn(scratch);
} finally {
  rmSync(scratch, { force: true, recursive: true });
}

/** What any Node finds alike: in the tarball, in its declarations, and in what a bundler makes of it. */
async function check(tarball) {
  run("npx", ["publint", "run", "--strict", tarball], root, "inherit");
  run(
    "npx",
    ["attw", tarball, "--profile", "esm-only", "--exclude-entrypoints", "./package.json", "--format", "ascii"],
    root,
  );
  console.log("publint and are-the-types-wrong: nothing to report");
  const folder = join(scratch, "node_modules", "leeway");
  checkNotices(folder);
  checkDeclarations(folder);
  checkTypes(scratch);
  await checkBundles(scratch);
}

/** Installs the tarball into an empty project and weighs what is there then. */
function install(folder, tarball) {
  writeFileSync(join(folder, "package.json"), JSON.stringify({ name: "stranger", private: true, type: "module" }));
  const began = Date.now();
  run(npm, ["install", "--no-audit", "--no-fund", "--prefer-offline", "--silent", tarball], folder);
  const seconds = (Date.now() - began) / 1000;
  const { packages } = JSON.parse(readFileSync(join(folder, "package-lock.json"), "utf8"));
  const installed = Object.entries(packages).filter(([path]) => path !== "");
  const floating = installed.flatMap(([path, { dependencies: all = {} }]) =>
    Object.entries(all).flatMap(([name, range]) => (/^(?:\*|latest|)$/.test(range) ? [`${path}: ${name}`] : [])),
  );
  if (floating.length > 0) throw new Error(`versions that float: ${floating.join(", ")}`);
  const native = installed.filter(([, { hasInstallScript }]) => hasInstallScript).map(([path]) => path);
  if (native.length > 0) throw new Error(`packages that run something when they are installed: ${native.join(", ")}`);
  hold("packages", installed.length, MOST.packages);
  hold("megabytes", bytesIn(join(folder, "node_modules")) / 1e6, MOST.megabytes);
  // A wall clock on a machine that is doing other things: said, not judged.
  console.log(`  installed in ${seconds.toFixed(1)} s (aim: ${MOST.seconds} s on two cores with nothing else to do)`);
}

function hold(what, found, most) {
  console.log(`  ${what}: ${Number.isInteger(found) ? found : found.toFixed(2)} (at most ${most})`);
  if (found > most) throw new Error(`${what}: at most ${most}, found ${found}`);
}

function bytesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((sum, { parentPath, name }) => sum + statSync(join(parentPath, name)).size, 0);
}

/** Every package that our code imports and that is not installed beside it is in the notices, and nothing there is under a licence that forbids this. */
function checkNotices(folder) {
  const notices = readFileSync(join(folder, "dist", "NOTICES.txt"), "utf8");
  const [mit, ...sections] = notices.split(/^== /m).slice(1).reverse();
  if (!mit.startsWith(`${MIT}\n\nPermission is hereby granted`)) throw new Error(`the notices do not end with ${MIT}`);
  const named = new Set(sections.map((section) => /^(\S+) \S+ \(/.exec(section)?.[1]));
  for (const section of sections)
    if (section.length < 300 && !(section.includes(`${MIT} is at the end.`) && /copyright/i.test(section)))
      throw new Error(`a notice without the text of its licence: ${section}`);
  const scripts = readdirSync(join(folder, "dist"), { encoding: "utf8", recursive: true }).filter((path) =>
    path.endsWith(".js"),
  );
  const texts = scripts.map((path) => readFileSync(join(folder, "dist", path), "utf8"));
  const asked = new Set(
    texts.flatMap((text) =>
      [...text.matchAll(/(?:\bfrom ?|\bimport\()"([^."/][^"]*)"/g)].map((match) => packageIn(match[1])),
    ),
  );
  const imported = readdirSync(join(root, "lib"), { encoding: "utf8", recursive: true })
    .filter((path) => path.endsWith(".ts") && !path.endsWith(".d.ts"))
    .flatMap((path) => {
      const text = readFileSync(join(root, "lib", path), "utf8");
      return [...text.matchAll(/^import (?!type)[^;]*? from "([^."/][^"]*)";/gm)].map((match) => packageIn(match[1]));
    });
  const unnamed = [...new Set(imported)].filter(
    (name) => !name.startsWith("node:") && !named.has(name) && !asked.has(name),
  );
  if (unnamed.length > 0) throw new Error(`packages without a notice: ${unnamed.join(", ")}`);
  const forbidden = [...texts, ...sections].filter((text) => FORBIDDEN.test(text));
  if (forbidden.length > 0) throw new Error(`under a licence that forbids it: ${FORBIDDEN.exec(forbidden[0])[0]}`);
  console.log(`  notices: ${sections.length} packages, ${imported.length} imports of our own looked at`);
}

/** Declarations name no package that is not installed with ours. */
function checkDeclarations(folder) {
  for (const file of readdirSync(join(folder, "dist")).filter((name) => name.endsWith(".d.ts"))) {
    const text = readFileSync(join(folder, "dist", file), "utf8");
    const named = [...text.matchAll(/^(?:import|export)\b[^;]*? from "([^."/][^"]*)"/gm)].map((match) =>
      packageIn(match[1]),
    );
    const missing = named.filter((name) => dependencies[name] === undefined);
    if (missing.length > 0) throw new Error(`${file} names ${missing.join(", ")}, not installed with the package`);
  }
}

/** What an application that is written in TypeScript may and may not say: `.ci/application.ts`, compiled beside the installed package. */
function checkTypes(folder) {
  writeFileSync(join(folder, "application.ts"), readFileSync(new URL("application.ts", import.meta.url)));
  const compiler = fileURLToPath(new URL("../node_modules/typescript/bin/tsc", import.meta.url));
  const options = "--noEmit --strict --exactOptionalPropertyTypes --target es2022 --module nodenext";
  run(process.execPath, [compiler, ...options.split(" "), "application.ts"], folder);
  console.log("  types: an application that names a code or a unit wrongly does not compile");
}

function packageIn(specifier) {
  return specifier.startsWith("node:") ? specifier : /^(?:@[^/]+\/)?[^/]+/.exec(specifier)[0];
}

/** What an application's bundler makes of an import: one piece without decoders, on any platform, and no more than was said. */
async function checkBundles(folder) {
  const sizeOf = async (names, platform) => {
    const { outputFiles } = await build({
      bundle: true,
      format: "esm",
      logLevel: "error",
      minify: true,
      outdir: "out",
      platform,
      splitting: true,
      stdin: { contents: `export { ${names} } from "leeway";`, resolveDir: folder },
      write: false,
    });
    if (outputFiles.length !== 1)
      throw new Error(`import { ${names} } gives ${outputFiles.length} pieces on the platform ${platform}, not one`);
    return gzipSync(outputFiles[0].contents, { level: 9 }).length;
  };
  for (const platform of ["browser", "neutral"])
    console.log(
      `  import { parseTempo }, ${platform}: ${((await sizeOf("parseTempo", platform)) / 1000).toFixed(1)} kB`,
    );
  const core = await sizeOf("openCourse, rungs, scoreOf, assess, decide", "browser");
  hold("bytes to open a compiled course, assess and decide", core, MOST_CORE);
}

/** Uses the doors and the command line. */
function useIn(folder) {
  const doors = Object.keys(exports).filter((door) => !door.includes("*") && !door.endsWith(".json"));
  const names = doors.map((door) => `leeway${door.slice(1)}`);
  writeFileSync(
    join(folder, "use.mjs"),
    `for (const name of ${JSON.stringify(names)}) {
  const door = await import(name);
  if (Object.keys(door).length === 0) throw new Error(name + " exports nothing");
}
const { compileCourse, openCourse, parseSpan, readCurriculum, rungs, scoreOf } = await import("leeway");
const { readFileSync } = await import("node:fs");
const file = import.meta.resolve("leeway/curricula/quayside-first-course.yaml");
const read = readCurriculum(readFileSync(new URL(file), "utf8"), { file: "quayside-first-course.yaml", readFile: () => undefined });
if (!read.ok) throw new Error(JSON.stringify(read.problems));
const ladder = rungs(read.value.drills[0]);
const score = scoreOf(ladder.at(0));
if (!(ladder.count > 0) || score === undefined) throw new Error("no rungs");
if (!openCourse(compileCourse(read.value)).ok) throw new Error("not opened");
// The build leaves meanings of codes out; severities stay.
const wrong = parseSpan("one bar");
if (wrong.ok || wrong.problems[0].severity !== "error") throw new Error(JSON.stringify(wrong));

const { encodeFlac, encodeWav } = await import("leeway/formats");
const { readSoundBank } = await import("leeway/sound");
const { renderSheet } = await import("leeway/sheet");
const { openPostgres } = await import("leeway/store/postgres");
const { openSqlite } = await import("leeway/store/sqlite");
const says = async (what, code, command) => {
  const result = await what;
  const problem = result.ok ? undefined : result.problems[0];
  if (problem?.code !== code || !problem.remedy.includes(command)) throw new Error(code + " expected, got " + JSON.stringify(problem));
};
const riff = new Uint8Array(20).fill(0); riff.set(new TextEncoder().encode("RIFF")); riff[4] = 12;
await says(readSoundBank(riff), "SYNTHESISER_MISSING", "npm install spessasynth_core");
await says(renderSheet(read.value.drills[0], undefined, { paper: "a4" }), "SHEET_PACKAGE_MISSING", "npm install fontkit pdfkit");
await says(openPostgres("postgresql://nobody@127.0.0.1:1/none", { create: true }), "STORE_DRIVER_MISSING", "npm install pg");
const sound = { rate: 44100, channels: [new Float32Array(64), new Float32Array(64)] };
if (encodeFlac(sound).length < 60) throw new Error("no FLAC");
if (encodeWav(sound).length < 100) throw new Error("no sound");
if (process.getBuiltinModule?.("node:sqlite") === undefined)
  await says(openSqlite("own.sqlite", { create: true }), "STORE_DRIVER_MISSING", "npm install better-sqlite3");
else {
  const store = await openSqlite("own.sqlite", { create: true });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  await store.value.close();
}
`,
  );
  run(process.execPath, ["use.mjs"], folder, "inherit");
  const main = join(folder, "node_modules", "leeway", "dist", "cli", "main.js");
  const leeway = (...words) => run(process.execPath, [main, ...words], folder);
  const said =
    process.platform === "win32"
      ? leeway("--version")
      : run(join(folder, "node_modules", ".bin", "leeway"), ["--version"], folder);
  if (said.trim() !== version) throw new Error(`leeway --version said ${said}, expected ${version}`);
  const course = join("node_modules", "leeway", "curricula", "quayside-first-course.yaml");
  leeway("check", course);
  leeway("compile", course, "--out", "course.json");
  // Encoders and threads come with the command line.
  leeway("render", course, "half-bar", "1", "--mix", "play", "--as", "flac,midi,musicxml,chart", "--out", "out");
  console.log(
    `installed into an empty project: ${names.length} imports and the command line work (Node ${process.versions.node})`,
  );
}

function run(command, args, cwd, stdout = "pipe") {
  const {
    error,
    status,
    stderr,
    stdout: said,
  } = spawnSync(command, args, {
    cwd,
    encoding: "utf8",
    maxBuffer: 1e8,
    stdio: ["ignore", stdout, stdout === "inherit" ? "inherit" : "pipe"],
  });
  if (error) throw error;
  if (status !== 0) {
    process.stderr.write(`${command} ${args.join(" ")}\n${said ?? ""}${stderr ?? ""}`);
    process.exitCode = 1;
    throw new Error(`${command} ended with ${status}`);
  }
  return said ?? "";
}
