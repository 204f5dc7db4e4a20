/**
 * The whole check, as `npm test` and CI run it. The build comes first (a few seconds), then the tests start at once, and the other checks run
 * beside them, one after the other: types, style, unused code, generated files, declarations, the package. What a check printed
 * is shown when it fails; what each door weighs is printed by a test (`tests/pages/sizes.test.ts`). The last line is the tally of the tests.
 */
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const node = process.execPath;

const CHECKS = [
  ["types", node, [bin("typescript/bin/tsc"), "--noEmit", "-p", "tsconfig.json"]],
  ["style", "npx", ["biome", "check", "--error-on-warnings"]],
  ["unused code", "npx", ["knip"]],
  ["generated files", node, ["schemas/generate.mjs", "--check"]],
  ["generated words", node, ["lib/words/generate.mjs", "--check"]],
  ["declarations", node, [".ci/declarations.mjs"]],
  ["package", node, [".ci/package.mjs"]],
];

const built = await run(node, [".ci/build.mjs"]);
if (built.status !== 0) {
  process.stdout.write(built.said);
  process.exit(1);
}

const tests = new Promise((resolve) => {
  spawn(node, [bin("vitest/vitest.mjs"), "run", ...process.argv.slice(2)], { cwd: root, stdio: "inherit" }).on(
    "close",
    resolve,
  );
});

const failed = [];
for (const [name, command, args] of CHECKS) {
  const began = Date.now();
  const { status, said } = await run(command, args);
  const seconds = ((Date.now() - began) / 1000).toFixed(0);
  console.log(`\n== ${name}: ${status === 0 ? "passed" : "FAILED"} (${seconds} s)\n${shown(name, status, said)}`);
  if (status !== 0) failed.push(name);
}

const status = await tests;
if (failed.length > 0) console.error(`\nchecks that failed, see above: ${failed.join(", ")}`);
process.exitCode = status === 0 && failed.length === 0 ? 0 : 1;

/** What is worth reading of a check: all of it when it failed, and always what the package weighs. */
function shown(name, status, said) {
  return status !== 0 || name === "package" ? said : "";
}

function bin(path) {
  return fileURLToPath(new URL(`../node_modules/${path}`, import.meta.url));
}

/** Runs a command to its end; both of its outputs in the order they came. */
function run(command, args) {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
    let said = "";
    child.stdout.on("data", (piece) => (said += piece));
    child.stderr.on("data", (piece) => (said += piece));
    child.on("error", (error) => resolve({ status: 1, said: `${said}${error.message}\n` }));
    child.on("close", (status) => resolve({ status, said }));
  });
}
