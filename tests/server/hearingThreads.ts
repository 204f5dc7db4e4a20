import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import type { Hearing, HearingOptions } from "../../lib/server/hearing/openHearing.js";
import type { openHearingQueue } from "../../lib/server/index.js";
import { ROOT } from "../sources.js";

/** Opens hearing with threads, which need files that Node reads by itself. */
export interface HearingThreads {
  readonly open: (options?: HearingOptions) => Hearing;
  readonly openQueue: typeof openHearingQueue;
  readonly remove: () => void;
}

/** Takes that break their thread, by their name; any other is heard. */
const BROKEN = `
import { workerData } from "node:worker_threads";
const { id } = workerData.terms;
if (id === "throws") throw new Error("as a decoder may");
if (id === "stops") process.exit(3);
if (id === "never ends") for (;;);
if (id === "fills the memory") for (const all = [];;) all.push(new Array(1e6).fill(all.length));
await import("./heard.mjs");
`;

/** The hearing of a school, with threads in which some takes do what a recording must not. */
export async function hearingThreads(): Promise<HearingThreads> {
  const outdir = mkdtempSync(join(ROOT, "node_modules", ".hearing-"));
  chmodSync(outdir, 0o755);
  const folder = join(ROOT, "lib", "server", "hearing");
  await build({
    entryPoints: {
      open: join(folder, "openHearing.ts"),
      queue: join(folder, "workers", "openHearingQueue.ts"),
      heard: join(folder, "hearer.ts"),
    },
    outExtension: { ".js": ".mjs" },
    ...{ bundle: true, packages: "external", platform: "node", format: "esm", outdir, logLevel: "error" },
  });
  writeFileSync(join(outdir, "hearer.js"), BROKEN);
  writeFileSync(join(outdir, "package.json"), '{"type":"module"}');
  const load = (file: string) => import(/* @vite-ignore */ pathToFileURL(join(outdir, file)).href);
  const { openHearing } = (await load("open.mjs")) as { readonly openHearing: HearingThreads["open"] };
  const { openHearingQueue: openQueue } = (await load("queue.mjs")) as {
    readonly openHearingQueue: HearingThreads["openQueue"];
  };
  return { open: openHearing, openQueue, remove: () => rmSync(outdir, { force: true, recursive: true }) };
}
