/**
 * Needs a whole build. Checks the package as a stranger gets it: packs it, lints the tarball, asks whether its types resolve, installs it into an empty
 * project and uses its command line and every door of its import there.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const scratch = mkdtempSync(join(tmpdir(), "leeway-package-"));
const npm = process.platform === "win32" ? "npm.cmd" : "npm";

try {
  const [{ filename, files, size }] = JSON.parse(
    run(npm, ["pack", "--ignore-scripts", "--json", "--pack-destination", scratch], root),
  );
  const tarball = join(scratch, filename);
  console.log(`packed ${filename}: ${files.length} files, ${(size / 1000).toFixed(0)} kB`);
  run("npx", ["publint", "run", "--strict", tarball], root, "inherit");
  run(
    "npx",
    ["attw", tarball, "--profile", "esm-only", "--exclude-entrypoints", "./package.json", "--format", "ascii"],
    root,
  );
  console.log("publint and are-the-types-wrong: nothing to report");
  await useIn(scratch, tarball);
} finally {
  rmSync(scratch, { force: true, recursive: true });
}

/** Installs the tarball into an empty project and uses it from there. */
async function useIn(folder, tarball) {
  writeFileSync(join(folder, "package.json"), JSON.stringify({ name: "stranger", private: true, type: "module" }));
  // Without the optional native package, which takes minutes to compile: every door must open without it.
  run(npm, ["install", "--omit=optional", "--no-audit", "--no-fund", "--prefer-offline", "--silent", tarball], folder);
  const { exports, version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const doors = Object.keys(exports).filter((door) => !door.includes("*") && !door.endsWith(".json"));
  const names = doors.map((door) => `leeway${door.slice(1)}`);
  writeFileSync(
    join(folder, "use.mjs"),
    `for (const name of ${JSON.stringify(names)}) {
  const door = await import(name);
  if (Object.keys(door).length === 0) throw new Error(name + " exports nothing");
}
const { readCurriculum, rungs, scoreOf } = await import("leeway");
const { readFileSync } = await import("node:fs");
const file = import.meta.resolve("leeway/curricula/quayside-first-course.yaml");
const read = readCurriculum(readFileSync(new URL(file), "utf8"), { file: "quayside-first-course.yaml", readFile: () => undefined });
if (!read.ok) throw new Error(JSON.stringify(read.problems));
const ladder = rungs(read.value.drills[0]);
const score = scoreOf(ladder.at(0));
if (!(ladder.count > 0) || score === undefined) throw new Error("no rungs");
`,
  );
  run(process.execPath, ["use.mjs"], folder, "inherit");
  const bin = join(folder, "node_modules", ".bin", "leeway");
  const said = run(bin, ["--version"], folder).trim();
  if (said !== version) throw new Error(`leeway --version said ${said}, expected ${version}`);
  run(bin, ["check", join("node_modules", "leeway", "curricula", "quayside-first-course.yaml")], folder);
  console.log(`installed into an empty project: ${names.length} imports and the command line work`);
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
