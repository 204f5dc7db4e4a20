/**
 * Everything at full size: `npm run proof`, or a part of it, `npm run proof -- laws landing`. The parts are `laws` (the tests that take few samples in the
 * suite) and each bench. The laws come first, on every core; then the benches that count, as many at a time as there are cores; then those that measure time, one
 * after another. Each has a heading with its sizes and seed, and the last lines say how long each part took. A part that fails does not stop the others, but the
 * whole fails. It is to end within two hours on two cores that do nothing else. What is set in the environment goes before what is written here: `SEED=7 npm run proof -- laws`.
 */
import { spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));

/** Sizes that are not a bench's own: the benches not named here are whole as they are. Our choice: 800 silences a row are those of figures to quote, the others several times the default. */
const SIZES = {
  accuracy: { LEEWAY_TAKES: "400" },
  landing: { LEEWAY_SILENCES: "800", LEEWAY_ROWS: "", HELD_OUT: "yes" },
  "landing-gate": { LEEWAY_STUDENTS: "300", LEEWAY_TAKES: "40" },
  listening: { LEEWAY_TAKES: "12" },
  placement: { LEEWAY_STUDENTS: "400" },
  policies: { LEEWAY_STUDENTS: "48" },
};

/** Benches that measure time: beside another one they would measure that one too. */
const TIMED = [
  "assess-speed",
  "listening-files",
  "load",
  "many-students",
  "replay",
  "replicated-log",
  "rungs",
  "school",
  "sound",
  "startup",
  "store",
];
/** The longest of the others, which start first. */
const LONGEST = ["policies", "landing", "landing-gate", "placement", "forecast"];

const benches = readdirSync(`${root}tests/bench`)
  .filter((file) => file.endsWith(".bench.ts"))
  .map((file) => file.slice(0, -".bench.ts".length))
  .sort();
const parts = ["laws", ...benches];

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !parts.includes(name));
const stray = [...Object.keys(SIZES), ...TIMED, ...LONGEST].filter((name) => !benches.includes(name));
if (unknown.length > 0 || stray.length > 0) {
  if (stray.length > 0) console.error(`no such bench, though it is named here: ${stray.join(", ")}`);
  if (unknown.length > 0) console.error(`no such part: ${unknown.join(", ")}; there are ${parts.join(", ")}`);
  process.exit(2);
}

const chosen = wanted.length > 0 ? wanted : parts;
const isTimed = (name) => TIMED.includes(name);
const counting = chosen.filter((name) => name !== "laws" && !isTimed(name));
const waiting = [
  ...LONGEST.filter((name) => counting.includes(name)),
  ...counting.filter((name) => !LONGEST.includes(name)),
];
const minutes = new Map();
const failed = [];

if (chosen.includes("laws")) await prove("laws", true);
const single = waiting.length === 1;
await Promise.all(
  Array.from({ length: Math.min(availableParallelism(), waiting.length) }, async () => {
    for (let name = waiting.shift(); name !== undefined; name = waiting.shift()) await prove(name, single);
  }),
);
for (const name of chosen.filter(isTimed)) await prove(name, true);

console.log("\n==== minutes");
for (const [name, took] of minutes) console.log(`${name}: ${took}`);
if (failed.length > 0) console.error(`\nfailed, see above: ${failed.join(", ")}`);
process.exitCode = failed.length === 0 ? 0 : 1;

/** Runs one part. What it prints is shown as it comes when nothing runs beside it, and else when it has ended. */
async function prove(name, isAlone) {
  const settings = name === "laws" ? { LEEWAY_PROOF: "yes", SEED: "1125" } : { LEEWAY_SEED: "quay", ...SIZES[name] };
  const environment = { ...settings, ...process.env };
  const heading = `\n==== ${name}: ${Object.keys(settings)
    .map((key) => `${key}=${environment[key]}`)
    .join(" ")}`;
  if (isAlone) console.log(heading);
  const began = Date.now();
  const words = name === "laws" ? lawsOf() : [".ci/bench.mjs", name];
  const { status, said } = await run(words, environment, isAlone);
  minutes.set(name, ((Date.now() - began) / 60_000).toFixed(1));
  if (!isAlone) console.log(`${heading}\n${said}`);
  console.log(`==== ${name}: ${status === 0 ? "done" : "FAILED"} (${minutes.get(name)} min)`);
  if (status !== 0) failed.push(name);
}

/** The command of the tests that have a size for a proof, or use a file that has; each size is printed. */
function lawsOf() {
  const files = readdirSync(`${root}tests`, { encoding: "utf8", recursive: true })
    .filter((path) => path.endsWith(".ts"))
    .map((path) => `tests/${path.replaceAll("\\", "/")}`);
  const text = new Map(files.map((path) => [path, readFileSync(`${root}${path}`, "utf8")]));
  const sized = files.filter((path) => /\bsample\(\{/.test(text.get(path)) && path !== "tests/samples.ts");
  for (const path of sized)
    for (const line of text.get(path).split("\n"))
      if (/\bsample\(\{/.test(line)) console.log(`${path}: ${line.trim()}`);
  const uses = (path) =>
    sized.some((each) => text.get(path).includes(`/${each.split("/").at(-1).replace(".ts", ".js")}"`));
  const tests = files.filter((path) => path.endsWith(".test.ts") && (sized.includes(path) || uses(path)));
  return ["node_modules/vitest/vitest.mjs", "run", ...tests];
}

/** Runs a command to its end; what it printed, when it is kept. */
function run(words, env, isShown) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, words, { cwd: root, env, stdio: isShown ? "inherit" : "pipe" });
    let said = "";
    for (const stream of [child.stdout, child.stderr]) stream?.on("data", (piece) => (said += piece));
    child.on("error", (error) => resolve({ status: 1, said: `${said}${error.message}\n` }));
    child.on("close", (status) => resolve({ status, said }));
  });
}
