import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { builtEntry } from "../../built.js";
import { ROOT } from "../../sources.js";

/** The package beside all of its dependencies but the notation engraver, as an installation without it has them. */
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-without-"));
  cpSync(dirname(dirname(builtEntry())), join(folder, "dist"), { recursive: true });
  cpSync(join(ROOT, "package.json"), join(folder, "package.json"));
  mkdirSync(join(folder, "node_modules"));
  for (const name of readdirSync(join(ROOT, "node_modules")))
    if (name !== "verovio") symlinkSync(join(ROOT, "node_modules", name), join(folder, "node_modules", name));
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

test("leeway render says how to get the notation engraver when sheets are asked for without it", () => {
  const course = join(ROOT, "curricula", "quayside-first-course.yaml");
  const words = ["render", course, "half-bar", "1", "--as", "pdf", "--out", "sheets", "--json"];
  const entry = join(folder, "dist", "cli", "main.js");
  const { status, stdout } = spawnSync(process.execPath, [entry, ...words], { cwd: folder, encoding: "utf8" });
  expect(status).toBe(1);
  expect(JSON.parse(stdout)).toMatchObject({
    problems: [{ code: "ENGRAVER_NOT_INSTALLED", remedy: "run npm install verovio" }],
  });
});
