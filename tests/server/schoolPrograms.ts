import { type ChildProcess, spawn } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { ROOT } from "../sources.js";

/** Servers and workers as programs of their own. */
export interface SchoolPrograms {
  /** Starts one; resolves when it is ready, or has ended before. */
  start(words: readonly string[]): Promise<ChildProcess>;
  remove(): void;
}

/** A take of this name ends the whole program of its worker, as running out of memory may. */
export const POISON = "kills its worker";
const HEARER = `
import { workerData } from "node:worker_threads";
if (workerData.terms.id === ${JSON.stringify(POISON)}) process.kill(process.pid, "SIGKILL");
await import("./heard.js");
`;

/** Bundles them; inside the project, whose root a bundled caller has to name. */
export async function schoolPrograms(root: string = ROOT): Promise<SchoolPrograms> {
  const folder = mkdtempSync(join(root, "node_modules", ".school-"));
  // As deep below the project as the sources are, which find its schemas so.
  const outdir = join(folder, "server");
  mkdirSync(outdir);
  chmodSync(folder, 0o755);
  const hearer = join(root, "lib", "server", "hearing", "hearer.ts");
  await build({
    entryPoints: { school: join(root, "tests", "server", "schoolProgram.ts"), heard: hearer },
    ...{ bundle: true, packages: "external", platform: "node", format: "esm", outdir, logLevel: "error" },
  });
  writeFileSync(join(outdir, "hearer.js"), HEARER);
  writeFileSync(join(outdir, "package.json"), '{"type":"module"}');
  return {
    start: (words) =>
      new Promise((resolve, reject) => {
        const child = spawn(process.execPath, [join(outdir, "school.js"), ...words], {
          stdio: ["pipe", "pipe", "inherit"],
        });
        child.once("error", reject);
        child.once("exit", () => resolve(child));
        child.stdout.once("data", () => resolve(child));
      }),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
