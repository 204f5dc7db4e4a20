import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { ROOT } from "./sources.js";

/** Pythons to try: the one of the path, and the system's, which has the packages of the system. */
const PYTHONS = ["python3", "/usr/bin/python3"];

/** A Python that has a module, or `undefined`; says so when there is none. */
export function pythonWith(module: string): string | undefined {
  const found = PYTHONS.find((python) => spawnSync(python, ["-c", `import ${module}`]).status === 0);
  if (found === undefined) console.log(`SKIPPED: checks with Python's ${module}, which is not installed`);
  return found;
}

/** What a script of the tests writes, as JSON, when it reads this. */
export function saidBy<T>(python: string, script: string, input: unknown): T {
  const { status, stdout, stderr } = spawnSync(python, [join(ROOT, "tests", script)], {
    input: JSON.stringify(input),
    encoding: "utf8",
    maxBuffer: 2 ** 28,
  });
  if (status !== 0) throw new Error(`${script}: ${stderr}`);
  return JSON.parse(stdout) as T;
}
