/**
 * Mutation testing: `npm run mutate` changes the code of lib/take, lib/progress and lib/drill that differs from a revision, one small change after another, and
 * says which changes no test noticed. `npm run mutate -- main` compares with that revision (HEAD when left out); `npm run mutate -- lib/progress/gate/gate.ts`
 * takes these files whether they differ or not. A survivor that would change a verdict or a decision needs a law; others may be harmless.
 *
 * Only the tests of a file's own room are run, which takes a minute or two for each hundred changes. Changes that are made once, when a module is loaded, are
 * left out: they cost most of the time, as every test has to be run anew for each.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
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
  for (const room of [...new Set(files.map((path) => OURS.exec(path)[1]))]) {
    const own = files.filter((path) => path.startsWith(`lib/${room}/`));
    console.log(`\n== ${room}: ${own.join(", ")}`);
    // Vitest is told the tests of the room by a config of its own, Stryker by another.
    const tests = join(scratch, `${room}.vitest.config.mjs`);
    writeFileSync(
      tests,
      `export default { test: { include: ["tests/${room}/**/*.test.ts"], setupFiles: ["tests/propertySeed.ts"], testTimeout: 120_000 } };\n`,
    );
    const config = join(scratch, `${room}.json`);
    writeFileSync(
      config,
      JSON.stringify({
        testRunner: "vitest",
        plugins: ["@stryker-mutator/vitest-runner"],
        vitest: { configFile: tests, related: true },
        mutate: own,
        ignoreStatic: true,
        coverageAnalysis: "perTest",
        concurrency: Number(process.env.LEEWAY_WORKERS ?? availableParallelism()),
        reporters: ["clear-text"],
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

function bin(path) {
  return fileURLToPath(new URL(`../node_modules/${path}`, import.meta.url));
}

function git(...args) {
  return execFileSync("git", args, { cwd: root, encoding: "utf8" }).split("\n").filter(Boolean);
}
