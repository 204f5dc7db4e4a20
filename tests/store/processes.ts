import { spawn } from "node:child_process";
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { ROOT } from "../sources.js";

/** A program made of one of our sources. */
export interface Program {
  readonly path: string;
  remove(): void;
}

/** Bundles a source of this folder; it lies inside the project (whose root a bundled caller has to name), so that packages are found. */
export async function programOf(source: string, root: string = ROOT): Promise<Program> {
  const folder = mkdtempSync(join(root, "node_modules", ".store-"));
  // Also for accounts that may do less than we.
  chmodSync(folder, 0o755);
  const path = join(folder, "program.mjs");
  await build({
    entryPoints: [join(root, "tests", "store", source)],
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    outfile: path,
    logLevel: "error",
  });
  return { path, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

export interface Run {
  /** Names of the takes the writer said were kept. */
  readonly kept: readonly string[];
  /** Codes of problems it ended with. */
  readonly failed: readonly string[];
  readonly killed: boolean;
  readonly err: string;
}

export interface RunOptions {
  /** Milliseconds after the first sign of life at which the process is killed (SIGKILL). */
  readonly killAfter?: number;
  /** Put before the program: a shell line that ends with `exec "$@"`. */
  readonly shell?: string;
  readonly account?: { readonly uid: number; readonly gid: number };
}

/** Runs a writer to its end or until it is killed. */
export function run(program: Program, words: readonly string[], options: RunOptions = {}): Promise<Run> {
  const command = [process.execPath, program.path, ...words];
  const [first, ...rest] = options.shell === undefined ? command : ["bash", "-c", options.shell, "bash", ...command];
  return new Promise((resolve, reject) => {
    const child = spawn(first!, rest, { stdio: ["ignore", "pipe", "pipe"], ...options.account });
    let out = "";
    let err = "";
    let timer: NodeJS.Timeout | undefined;
    child.stdout.on("data", (chunk) => {
      out += chunk;
      if (options.killAfter !== undefined) timer ??= setTimeout(() => child.kill("SIGKILL"), options.killAfter);
    });
    child.stderr.on("data", (chunk) => {
      err += chunk;
    });
    child.on("error", reject);
    child.on("close", (_code, signal) => {
      clearTimeout(timer);
      const lines = out.split("\n");
      const after = (word: string): readonly string[] =>
        lines.flatMap((line) => (line.startsWith(`${word} `) ? [line.slice(word.length + 1)] : []));
      resolve({ kept: after("kept"), failed: after("failed"), killed: signal === "SIGKILL", err });
    });
  });
}
