/**
 * What a developer runs while working, in about a minute: types, style, and the tests of what changed since the last commit (or since the
 * revision that is given: `npm run quick -- main`). Of a changed file in lib the tests are run in the folder that mirrors its own, or in the nearest one above
 * that is there, up to its room; of a changed test that file; always the tests of rooms and purity.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const base = process.argv[2] ?? "HEAD";

const changed = [...git("diff", "--name-only", base), ...git("ls-files", "--others", "--exclude-standard")].filter(
  (path) => existsSync(`${root}${path}`),
);
const tests = new Set(["tests/layers.test.ts", "tests/purity.test.ts"]);
for (const path of changed) {
  const folders = /^lib\/(.+)\//.exec(path)?.[1].split("/") ?? [];
  while (folders.length > 0 && !existsSync(`${root}tests/${folders.join("/")}`)) folders.pop();
  if (folders.length > 0) tests.add(`tests/${folders.join("/")}/`);
  if (/\.test\.ts$/.test(path)) tests.add(path);
}

run("npx", [
  "tsc",
  "--noEmit",
  "-p",
  "tsconfig.json",
  "--incremental",
  "--tsBuildInfoFile",
  "node_modules/.cache/quick.tsbuildinfo",
]);
run("npx", ["biome", "check", "--error-on-warnings"]);
// Tests of the command line use the build.
if ([...tests].some((path) => /^tests\/(?:cli|node|whole|readme)/.test(path))) run(process.execPath, [".ci/build.mjs"]);
run("npx", ["vitest", "run", ...tests]);

function git(...args) {
  return execFileSync("git", args, { cwd: root, encoding: "utf8" }).split("\n").filter(Boolean);
}

function run(command, args) {
  const { status } = spawnSync(command, args, { cwd: root, stdio: "inherit" });
  if (status !== 0) process.exit(status ?? 1);
}
