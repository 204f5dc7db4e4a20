/**
 * Builds dist/: JavaScript (esbuild) and declarations, each file by itself, in a few seconds. `--scripts` leaves the declarations out: enough to
 * run the command line. The generated validators, which are JavaScript already, and the fonts of sheets are copied.
 */
import { chmodSync, cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import ts from "typescript";

const root = fileURLToPath(new URL("../", import.meta.url));

const sources = readdirSync(`${root}lib`, { encoding: "utf8", recursive: true }).filter((path) =>
  /(?<!\.d)\.ts$/.test(path),
);

await buildScripts();
if (!process.argv.includes("--scripts")) buildDeclarations();

async function buildScripts() {
  rmSync(`${root}dist`, { force: true, recursive: true });
  await build({
    entryPoints: sources.map((path) => `${root}lib/${path}`),
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

/** File by file too: `isolatedDeclarations` makes each file's declarations a matter of its own text. Types are checked elsewhere. */
function buildDeclarations() {
  const { config } = ts.readConfigFile(`${root}lib/tsconfig.json`, ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, `${root}lib`);
  let broken = false;
  for (const path of sources) {
    const fileName = `${root}lib/${path}`;
    const { diagnostics, outputText } = ts.transpileDeclaration(readFileSync(fileName, "utf8"), {
      fileName,
      compilerOptions: options,
      reportDiagnostics: true,
    });
    for (const { messageText } of diagnostics ?? []) {
      console.error(`lib/${path}: ${ts.flattenDiagnosticMessageText(messageText, " ")}`);
      broken = true;
    }
    writeFileSync(`${root}dist/${path.replace(/\.ts$/, ".d.ts")}`, outputText);
  }
  if (broken) process.exit(1);
}
