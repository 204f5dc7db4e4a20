import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { ROOT } from "../../sources.js";

type NodeSound = typeof import("../../../lib/node/index.js");

/** The Node part of the sound renderer, compiled: its threads need files that Node reads by itself. */
export interface BuiltSound {
  readonly node: NodeSound;
  /** URL of the compiled door, for programs of their own. */
  readonly url: string;
  readonly remove: () => void;
}

/** Compiles the Node part and its thread into a folder inside the project, so that packages are found. */
export async function builtSound(): Promise<BuiltSound> {
  const outdir = mkdtempSync(join(ROOT, "node_modules", ".sound-"));
  chmodSync(outdir, 0o755);
  const folder = join(ROOT, "lib", "node");
  await build({
    entryPoints: { index: join(folder, "index.ts"), worker: join(folder, "batch", "worker.ts") },
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    outdir,
    logLevel: "error",
  });
  const url = pathToFileURL(join(outdir, "index.js")).href;
  return {
    node: (await import(url)) as NodeSound,
    url,
    remove: () => rmSync(outdir, { force: true, recursive: true }),
  };
}
