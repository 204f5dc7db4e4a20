/**
 * Builds dist/: JavaScript file by file (esbuild, about a second), then the declarations (tsc). `--scripts` or `--declarations` makes
 * one of them only: the scripts are enough for the command line and the tests. The generated validators, which are JavaScript already,
 * and the fonts of sheets are copied.
 */
import { spawnSync } from "node:child_process";
import { chmodSync, cpSync, readdirSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../", import.meta.url));

const only = process.argv[2];
if (only !== "--declarations") await buildScripts();
if (only !== "--scripts") buildDeclarations();

async function buildScripts() {
  rmSync(`${root}dist`, { force: true, recursive: true });
  const sources = readdirSync(`${root}lib`, { encoding: "utf8", recursive: true });
  await build({
    entryPoints: sources.filter((path) => /(?<!\.d)\.ts$/.test(path)).map((path) => `${root}lib/${path}`),
    outdir: `${root}dist`,
    outbase: `${root}lib`,
    format: "esm",
    platform: "neutral",
    target: "es2022",
    sourcemap: true,
    tsconfig: `${root}lib/tsconfig.json`,
    logLevel: "warning",
  });
  cpSync(`${root}lib/schema/generated`, `${root}dist/schema/generated`, {
    filter: (path) => !path.endsWith(".ts") || path.endsWith(".d.ts"),
    recursive: true,
  });
  cpSync(`${root}lib/render/sheet/fonts`, `${root}dist/render/sheet/fonts`, { recursive: true });
  chmodSync(`${root}dist/cli/main.js`, 0o755);
}

function buildDeclarations() {
  const compiler = fileURLToPath(import.meta.resolve("typescript/bin/tsc"));
  const { status } = spawnSync(
    process.execPath,
    [compiler, "-p", `${root}lib/tsconfig.json`, "--emitDeclarationOnly"],
    {
      stdio: "inherit",
    },
  );
  if (status !== 0) process.exit(status ?? 1);
}
