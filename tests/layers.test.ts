import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, test } from "vitest";
import { importsOf, ROOT, sourcesIn } from "./sources.js";

/** Folder (or `index`) -> what it may import, as the table in DEVELOPERS.md says. */
const table = layerTable(readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8"));

function layerTable(text: string): ReadonlyMap<string, readonly string[]> {
  const rows = [...text.matchAll(/^\| `lib\/([\w-]+)(?:\.ts)?` \|[^|\n]*(?:\|[^|\n]*)*\| ([^|\n]+) \|$/gm)];
  const named = new Map<string, readonly string[]>();
  for (const [, folder, allowed] of rows) {
    const above = [...named.keys()];
    named.set(folder!, allowed === "nothing" ? [] : allowed === "all above" ? above : allowed!.split(" "));
  }
  return named;
}

/** The layer a path belongs to: its folder, or `index` for lib/index.ts. */
function layerOf(path: string): string {
  const [, first] = path.split("/");
  return first!.replace(/\.ts$/, "");
}

describe("the layer table in DEVELOPERS.md", () => {
  test("names every folder of lib, and only those", () => {
    const folders = readdirSync(join(ROOT, "lib"), { withFileTypes: true }).filter((entry) => entry.isDirectory());
    expect([...table.keys()].sort()).toEqual([...folders.map((entry) => entry.name), "index"].sort());
  });

  test("lets each folder import only from folders above it, so that there is no circle", () => {
    const seen = new Set<string>();
    for (const [folder, allowed] of table) {
      for (const name of allowed) expect(seen, `${folder} may import ${name}`).toContain(name);
      seen.add(folder);
    }
  });

  test("has a door in every folder but the command line, or one in each of its parts", () => {
    for (const folder of table.keys()) {
      if (folder === "index" || folder === "cli") continue;
      const path = join(ROOT, "lib", folder);
      const parts = readdirSync(path, { withFileTypes: true }).filter((entry) => entry.isDirectory());
      const doors = [path, ...parts.map((part) => join(path, part.name))].filter((each) =>
        existsSync(join(each, "index.ts")),
      );
      expect(doors.includes(path) || (parts.length > 0 && doors.length === parts.length), folder).toBe(true);
    }
  });
});

describe("imports in lib", () => {
  test.each(sourcesIn("lib").map((file) => [file.path, file] as const))(
    "%s keeps to its layer and uses doors",
    (path, file) => {
      const own = layerOf(path);
      for (const name of importsOf(file).filter((each) => each.startsWith("."))) {
        const target = posix.join(posix.dirname(path), name).replace(/\.js$/, ".ts");
        const layer = layerOf(target);
        if (layer === own) continue;
        expect(table.get(own), `${path} imports ${name}`).toContain(layer);
        expect(target, `${path} goes round the door of ${layer}`).toMatch(/^lib\/(?:[\w-]+\/){0,3}index\.ts$/);
      }
    },
  );

  test.each(sourcesIn("lib").map((file) => [file.path, file] as const))(
    "%s names the extension of what it imports",
    (_path, file) => {
      for (const name of importsOf(file).filter((each) => each.startsWith("."))) expect(name).toMatch(/\.js$/);
    },
  );
});
