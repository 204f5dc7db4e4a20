// Runs the benches: `npm run bench` all of them, `npm run bench -- accuracy` one. A bench is tests/bench/NAME.bench.ts; it prints what it measured.
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const folder = new URL("../tests/bench/", import.meta.url).pathname;
const names = (await readdir(folder))
  .filter((file) => file.endsWith(".bench.ts"))
  .map((file) => file.slice(0, -".bench.ts".length));
const wanted = process.argv.slice(2).filter((word) => !word.startsWith("-"));
const unknown = wanted.filter((name) => !names.includes(name));
if (unknown.length > 0) {
  console.error(`no such bench: ${unknown.join(", ")}; there are ${names.join(", ")}`);
  process.exit(2);
}
// Inside the project, so that the packages a bench measures against are found.
const out = await mkdtemp(join(folder, "../../node_modules/.bench-"));
try {
  for (const name of wanted.length > 0 ? wanted : names.sort()) {
    const outfile = join(out, `${name}.mjs`);
    await build({
      entryPoints: [join(folder, `${name}.bench.ts`)],
      bundle: true,
      packages: "external",
      platform: "node",
      format: "esm",
      outfile,
      logLevel: "error",
    });
    console.log(`\n== ${name}`);
    await import(pathToFileURL(outfile).href);
  }
} finally {
  await rm(out, { recursive: true, force: true });
}
