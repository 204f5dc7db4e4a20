/**
 * Everything at full size: `npm run proof`, or a part of it, `npm run proof -- laws landing`. The parts are `laws` (the tests that take few samples in the
 * suite) and each bench. They run one after another, each under a heading with its sizes and seed; a part that fails does not stop the others, but the whole
 * fails. It takes hours. What is set in the environment goes before what is written here: `SEED=7 npm run proof -- laws`.
 */
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));

/** Sizes that are not a bench's own: the benches not named here are whole as they are. Our choice: 800 silences a row are those of figures to quote, the others several times the default. */
const SIZES = {
  accuracy: { LEEWAY_TAKES: "400" },
  landing: { LEEWAY_SILENCES: "800", LEEWAY_ROWS: "" },
  "landing-gate": { LEEWAY_STUDENTS: "300" },
  listening: { LEEWAY_TAKES: "12" },
  placement: { LEEWAY_STUDENTS: "400" },
};

const benches = readdirSync(`${root}tests/bench`)
  .filter((file) => file.endsWith(".bench.ts"))
  .map((file) => file.slice(0, -".bench.ts".length))
  .sort();
const parts = ["laws", ...benches];

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !parts.includes(name));
const stray = Object.keys(SIZES).filter((name) => !benches.includes(name));
if (unknown.length > 0 || stray.length > 0) {
  if (stray.length > 0) console.error(`sizes for a bench that is not there: ${stray.join(", ")}`);
  if (unknown.length > 0) console.error(`no such part: ${unknown.join(", ")}; there are ${parts.join(", ")}`);
  process.exit(2);
}

const failed = [];
for (const name of wanted.length > 0 ? wanted : parts) {
  const settings = name === "laws" ? { LEEWAY_PROOF: "yes", SEED: "1125" } : { LEEWAY_SEED: "quay", ...SIZES[name] };
  const environment = { ...settings, ...process.env };
  const shown = Object.keys(settings).map((key) => `${key}=${environment[key]}`);
  console.log(`\n==== ${name}: ${shown.join(" ")}`);
  const began = Date.now();
  const status = name === "laws" ? proveLaws(environment) : run([".ci/bench.mjs", name], environment);
  console.log(`==== ${name}: ${status === 0 ? "done" : "FAILED"} (${((Date.now() - began) / 60_000).toFixed(1)} min)`);
  if (status !== 0) failed.push(name);
}
if (failed.length > 0) console.error(`\nfailed, see above: ${failed.join(", ")}`);
process.exitCode = failed.length === 0 ? 0 : 1;

/** The tests that have a size for a proof, or use a file that has. */
function proveLaws(environment) {
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
  return run(["node_modules/vitest/vitest.mjs", "run", ...tests], environment);
}

function run(words, env) {
  const { status, error } = spawnSync(process.execPath, words, { cwd: root, env, stdio: "inherit" });
  if (error) console.error(error.message);
  return status ?? 1;
}
