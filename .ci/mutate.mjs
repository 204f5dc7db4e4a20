/**
 * Mutation testing: `npm run mutate` changes the code of lib/take, lib/progress and lib/drill that differs from a revision, one small change after another, and
 * lists the changes that no test notices. `npm run mutate -- main` compares with that revision (HEAD when left out); `npm run mutate -- lib/progress/gate/gate.ts`
 * takes these files whether they differ or not. A survivor that changes a verdict or a decision needs a law; others may be harmless.
 *
 * Of each file the tests nearest to it are run: those in the folder of tests that mirrors its own, those that import it, and those of its name; all tests of its
 * room when there are none. A few minutes for each hundred changes. Changes that are made once, when a module is loaded, are left out: every test would have
 * to be run anew for each.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const OURS = /^lib\/(take|progress|drill)\/.+(?<!\/index|\/codes)\.ts$/;

const words = process.argv.slice(2);
const named = words.filter((word) => word.endsWith(".ts"));
const missing = named.filter((path) => !OURS.test(path) || !existsSync(`${root}${path}`));
const bases = words.filter((word) => !word.endsWith(".ts"));
if (missing.length > 0 || bases.length > 1) {
  if (missing.length > 0) console.error(`no files of lib/take, lib/progress or lib/drill: ${missing.join(", ")}`);
  if (bases.length > 1) console.error(`one revision to compare with at most, found ${bases.join(", ")}`);
  process.exit(2);
}
const files =
  named.length > 0
    ? named
    : [
        ...git("diff", "--name-only", bases[0] ?? "HEAD", "--"),
        ...git("ls-files", "--others", "--exclude-standard"),
      ].filter((path) => OURS.test(path) && existsSync(`${root}${path}`));
if (files.length === 0) {
  console.log(`nothing to mutate: no file of lib/take, lib/progress or lib/drill differs from ${bases[0] ?? "HEAD"}`);
  process.exit(0);
}

const scratch = mkdtempSync(join(tmpdir(), "leeway-mutate-"));
let status = 0;
try {
  for (const tests of new Set(files.map((path) => testsOf(path).join(" ")))) {
    const own = files.filter((path) => testsOf(path).join(" ") === tests);
    console.log(`\n== ${own.join(", ")}\n   by ${tests}`);
    // Vitest is told the tests by a config of its own, Stryker by another.
    const vitest = join(scratch, "vitest.config.mjs");
    const test = { include: tests.split(" "), setupFiles: ["tests/propertySeed.ts"], testTimeout: 120_000 };
    writeFileSync(vitest, `export default ${JSON.stringify({ test })};\n`);
    const config = join(scratch, "stryker.json");
    writeFileSync(
      config,
      JSON.stringify({
        testRunner: "vitest",
        plugins: ["@stryker-mutator/vitest-runner"],
        vitest: { configFile: vitest, related: false },
        mutate: own,
        ignoreStatic: true,
        coverageAnalysis: "perTest",
        timeoutMS: 60_000,
        concurrency: Number(process.env.LEEWAY_WORKERS ?? availableParallelism()),
        reporters: ["clear-text", "progress-append-only"],
        clearTextReporter: { logTests: false, allowColor: false },
        tempDirName: join(scratch, "copy"),
        ignorePatterns: ["dist", "coverage"],
        allowEmpty: true,
      }),
    );
    const ran = spawnSync(process.execPath, [bin("@stryker-mutator/core/bin/stryker.js"), "run", config], {
      cwd: root,
      stdio: "inherit",
    });
    if (ran.status !== 0) status = 1;
  }
} finally {
  rmSync(scratch, { force: true, recursive: true });
}
process.exitCode = status;

/** The tests nearest to a file: of the folder that mirrors its own, of its name, and those that import it; all of its room when there are none. */
function testsOf(path) {
  const [, room] = OURS.exec(path);
  const all = readdirSync(`${root}tests/${room}`, { encoding: "utf8", recursive: true })
    .map((each) => `tests/${room}/${each.replaceAll("\\", "/")}`)
    .filter((each) => each.endsWith(".test.ts"));
  const folder = `${dirname(path).replace(/^lib/, "tests")}/`;
  const name = basename(path, ".ts");
  const imports = `/${path.replace(/\.ts$/, ".js")}"`;
  const near = all.filter(
    (each) =>
      (folder !== `tests/${room}/` && each.startsWith(folder)) ||
      basename(each).split(".")[0] === name ||
      readFileSync(`${root}${each}`, "utf8").includes(imports),
  );
  return near.length > 0 ? near.sort() : all.sort();
}

function bin(path) {
  return fileURLToPath(new URL(`../node_modules/${path}`, import.meta.url));
}

function git(...args) {
  return execFileSync("git", args, { cwd: root, encoding: "utf8" }).split("\n").filter(Boolean);
}
