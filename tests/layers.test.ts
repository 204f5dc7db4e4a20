import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, test } from "vitest";
import { importsOf, ROOT, type SourceFile, sourcesIn } from "./sources.js";

/** Room (or `index`) -> what it may import, as the table in DEVELOPERS.md says. */
const table = roomTable(readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8"));
const sources = sourcesIn("lib");
const DOOR = /^lib\/(?:[\w-]+\/){0,3}index\.ts$/;

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

/** What a file imports against the table, round a door or without an extension, each as a sentence. */
function strayImportsOf(file: SourceFile): readonly string[] {
  const own = roomOf(file.path);
  const strays = targetsOf(file).flatMap((target) => {
    const room = roomOf(target);
    if (room === own) return [];
    if (!table.get(own)?.includes(room)) return [`${file.path} may not import ${room}: ${target}`];
    if (!DOOR.test(target)) return [`${file.path} goes round the door of ${room}: ${target}`];
    return [];
  });
  const bare = importsOf(file).filter((name) => name.startsWith(".") && !name.endsWith(".js"));
  return [...strays, ...bare.map((name) => `${file.path} names no extension: ${name}`)];
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
    const folders = readdirSync(join(ROOT, "lib"), { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      // Programs to read: they import the package as a stranger does.
      .filter(({ name }) => name !== "examples");
    expect([...table.keys()].sort()).toEqual([...folders.map((entry) => entry.name), "index"].sort());
  });

  test("lets each room import only from rooms above it", () => {
    const seen = new Set<string>();
    for (const [room, allowed] of table) {
      for (const name of allowed) expect(seen, `${room} may import ${name}`).toContain(name);
      seen.add(room);
    }
  });

  test("gives no permission that nobody uses", () => {
    expect(table.size).toBeGreaterThan(10);
    const unused = [...table].flatMap(([room, allowed]) => {
      const own = sources.filter((file) => roomOf(file.path) === room);
      const used = new Set(own.flatMap(targetsOf).map(roomOf));
      return allowed.filter((name) => !used.has(name)).map((name) => `${room} never imports ${name}`);
    });
    expect(unused).toEqual([]);
  });

  test("has a door in every room but the command line, or one in each of its parts", () => {
    for (const room of table.keys()) {
      if (["index", "doors", "cli"].includes(room)) continue;
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
  test("keep to their room and use doors", () => {
    expect(sources.length).toBeGreaterThan(100);
    expect(sources.flatMap(strayImportsOf)).toEqual([]);
  });

  test("the search for stray imports finds what it looks for", () => {
    const text = `
      import { a } from "../base/index.js";
      import { b } from "../base/fraction.js";
      export { c } from "../render/index.js";
      const d = await import("./meter.js");
      import { e } from "./span";`;
    expect(strayImportsOf({ path: "lib/time/made-up.ts", text })).toEqual([
      "lib/time/made-up.ts goes round the door of base: lib/base/fraction.ts",
      "lib/time/made-up.ts may not import render: lib/render/index.ts",
      "lib/time/made-up.ts names no extension: ./span",
    ]);
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
});
