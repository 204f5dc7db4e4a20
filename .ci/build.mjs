/** Compiles lib/ to dist/ and puts the generated validators, which are JavaScript already, and the fonts of sheets beside it. */
import { spawnSync } from "node:child_process";
import { chmodSync, cpSync, existsSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
rmSync(`${root}dist`, { force: true, recursive: true });
const compiler = fileURLToPath(import.meta.resolve("typescript/bin/tsc"));
const { status } = spawnSync(process.execPath, [compiler, "-p", `${root}lib/tsconfig.json`], { stdio: "inherit" });
if (status !== 0) process.exit(status ?? 1);
cpSync(`${root}lib/schema/generated`, `${root}dist/schema/generated`, {
  filter: (path) => !path.endsWith(".ts") || path.endsWith(".d.ts"),
  recursive: true,
});
cpSync(`${root}lib/render/sheet/fonts`, `${root}dist/render/sheet/fonts`, { recursive: true });
if (existsSync(`${root}dist/cli/main.js`)) chmodSync(`${root}dist/cli/main.js`, 0o755);
