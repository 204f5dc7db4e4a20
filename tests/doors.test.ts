import { describe, expect, test } from "vitest";
import { doorFiles, doorNames } from "./doors.js";

const names = doorNames();

function several<Key>(keyOf: (name: (typeof names)[number]) => Key): ReadonlyMap<string, ReadonlySet<Key>> {
  const found = new Map<string, Set<Key>>();
  for (const each of names) found.set(each.name, (found.get(each.name) ?? new Set()).add(keyOf(each)));
  return new Map([...found].filter(([, keys]) => keys.size > 1));
}

describe("the doors of the package", () => {
  test("are these and no others", () => {
    expect([...doorFiles().keys()].map((door) => door.replace(/^\.\/?/, ""))).toEqual([
      "",
      "practice",
      "plan",
      "rehearsal",
      "report",
      "records",
      "listen",
      "recording",
      "render",
      "sheet",
      "sound",
      "formats",
      "schema",
      "words",
      "store",
      "store/sqlite",
      "store/postgres",
      "store/indexeddb",
      "browser",
      "node",
      "server",
    ]);
  });

  test("give each name one meaning", () => {
    expect(names.length).toBeGreaterThan(300);
    expect([...several(({ origin }) => origin).keys()]).toEqual([]);
  });

  test("have each value at one door; only a type may be at several, as both speak it", () => {
    const values = new Set(names.filter(({ kind }) => kind !== "type").map(({ name }) => name));
    expect([...several(({ door }) => door).keys()].filter((name) => values.has(name))).toEqual([]);
  });

  test("the root has about sixty nouns and verbs of the trade", () => {
    const root = names.filter(({ door, name, kind }) => door === "." && kind !== "type" && !name.includes("."));
    expect(root.map(({ name }) => name)).toContain("follow");
    expect(root.length).toBeGreaterThan(50);
    expect(root.length).toBeLessThan(75);
  });
});
