import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, test } from "vitest";
import { importsOf, ROOT, type SourceFile, sourcesIn } from "./sources.js";

/** Room (or `index`) -> what it may import, as the table in DEVELOPERS.md says. */
const table = roomTable(readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8"));
const sources = sourcesIn("lib");

function roomTable(text: string): ReadonlyMap<string, readonly string[]> {
  const rows = [...text.matchAll(/^\| `lib\/([\w-]+)(?:\.ts)?` \|[^|\n]*(?:\|[^|\n]*)*\| ([^|\n]+) \|$/gm)];
  return new Map(rows.map(([, room, allowed]) => [room!, allowed === "nothing" ? [] : allowed!.split(" ")]));
}

/** The room a path belongs to: its folder, or `index` for lib/index.ts. */
function roomOf(path: string): string {
  return path.split("/")[1]!.replace(/\.ts$/, "");
}

/** The files below lib that a file imports, types included. */
function targetsOf(file: SourceFile): readonly string[] {
  return importsOf(file)
    .filter((name) => name.startsWith("."))
    .map((name) => posix.join(posix.dirname(file.path), name).replace(/\.js$/, ".ts"));
}

/** The first circle of imports found, as the paths along it; empty when there is none. */
function circleIn(imports: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const done = new Set<string>();
  const walk = (path: string, way: readonly string[]): readonly string[] => {
    if (way.includes(path)) return [...way.slice(way.indexOf(path)), path];
    if (done.has(path)) return [];
    for (const next of imports.get(path) ?? []) {
      const circle = walk(next, [...way, path]);
      if (circle.length > 0) return circle;
    }
    done.add(path);
    return [];
  };
  for (const path of imports.keys()) {
    const circle = walk(path, []);
    if (circle.length > 0) return circle;
  }
  return [];
}

describe("the room table in DEVELOPERS.md", () => {
  test("names every folder of lib, and only those", () => {
    const folders = readdirSync(join(ROOT, "lib"), { withFileTypes: true }).filter((entry) => entry.isDirectory());
    expect([...table.keys()].sort()).toEqual([...folders.map((entry) => entry.name), "index"].sort());
  });

  test("lets each room import only from rooms above it", () => {
    const seen = new Set<string>();
    for (const [room, allowed] of table) {
      for (const name of allowed) expect(seen, `${room} may import ${name}`).toContain(name);
      seen.add(room);
    }
  });

  test.each([...table])("gives %s no permission that nobody uses", (room, allowed) => {
    const own = sources.filter((file) => roomOf(file.path) === room);
    const used = new Set(own.flatMap(targetsOf).map(roomOf));
    expect(allowed.filter((name) => !used.has(name))).toEqual([]);
  });

  test("has a door in every room but the command line, or one in each of its parts", () => {
    for (const room of table.keys()) {
      if (room === "index" || room === "cli") continue;
      const path = join(ROOT, "lib", room);
      const parts = readdirSync(path, { withFileTypes: true }).filter((entry) => entry.isDirectory());
      const doors = [path, ...parts.map((part) => join(path, part.name))].filter((each) =>
        existsSync(join(each, "index.ts")),
      );
      expect(doors.includes(path) || (parts.length > 0 && doors.length === parts.length), room).toBe(true);
    }
  });
});

describe("imports in lib", () => {
  test.each(sources.map((file) => [file.path, file] as const))("%s keeps to its room and uses doors", (path, file) => {
    const own = roomOf(path);
    for (const target of targetsOf(file)) {
      const room = roomOf(target);
      if (room === own) continue;
      expect(table.get(own), `${path} imports ${target}`).toContain(room);
      expect(target, `${path} goes round the door of ${room}`).toMatch(/^lib\/(?:[\w-]+\/){0,3}index\.ts$/);
    }
  });

  test("the search for circles finds one", () => {
    const imports = new Map([
      ["a", ["b"]],
      ["b", ["c"]],
      ["c", ["b"]],
    ]);
    expect(circleIn(imports)).toEqual(["b", "c", "b"]);
  });

  test("make no circle, imports of types included", () => {
    expect(circleIn(new Map(sources.map((file) => [file.path, targetsOf(file)])))).toEqual([]);
  });

  test.each(sources.map((file) => [file.path, file] as const))(
    "%s names the extension of what it imports",
    (_path, file) => {
      for (const name of importsOf(file).filter((each) => each.startsWith("."))) expect(name).toMatch(/\.js$/);
    },
  );
});
