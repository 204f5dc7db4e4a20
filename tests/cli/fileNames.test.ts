import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { fileNamesOf, pictureNames } from "../../lib/cli/fileNames.js";
import type { Score } from "../../lib/schema/index.js";
import { ROOT } from "../sources.js";
import { type Said, saidBy } from "./said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");

let folder: string;
let onsets: readonly number[];
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "leeway-pictures-"));
  const { out } = await saidBy(["score", COURSE, "steady", "1", "--json"]);
  onsets = (JSON.parse(out) as Score).expected.map(({ at }) => at);
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

/** Draws takes of these names into a folder of their own; the second of one name is played later. */
async function draw(name: string, ids: readonly string[]): Promise<Said & { readonly drawn: string }> {
  const lines = ids.map((id, i) =>
    JSON.stringify({ id, zero: "bar-1", onsets: onsets.map((at) => at + (ids.indexOf(id) === i ? 0 : 0.02)) }),
  );
  const takes = join(folder, `${name}.jsonl`);
  writeFileSync(takes, lines.join("\n"));
  const drawn = join(folder, name);
  return { ...(await saidBy(["assess", COURSE, "steady", "1", takes, "--pictures", drawn])), drawn };
}

/** What a file system that heeds neither case nor the form of Unicode makes of a name. */
const seenBy = (name: string): string => name.normalize("NFKC").toLowerCase().normalize("NFKC").toUpperCase();

/**
 * Reserved names and signs of Windows (Microsoft, "Naming Files, Paths, and Namespaces", from memory): with the separators and zero of Unix,
 * what a name must not be made of; and what the beginning of an option is.
 */
function expectSafe(name: string): void {
  expect(name).not.toMatch(/[\p{C}<>:"/\\|?*]/u);
  expect(name).not.toMatch(/^[-. ~]|[. ]$/);
  expect(name.split(".")[0]!.trim()).not.toMatch(
    /^(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[\d\u00b9\u00b2\u00b3])$/i,
  );
  expect(Buffer.byteLength(name)).toBeLessThanOrEqual(255 - ".part".length);
}

describe("leeway assess --pictures", () => {
  test("draws every take, whatever its name, for its owner's eyes", async () => {
    const ids = [
      "a/b",
      "a?b",
      "-rf",
      "..",
      "con",
      "nul.wav",
      "Take",
      "take",
      "caf\u00e9",
      "cafe\u0301",
      "x".repeat(300),
      "a\0b",
    ];
    const { status, drawn } = await draw("hostile", ids);
    expect(status).toBe(0);
    const names = readdirSync(drawn);
    expect(new Set(names.map(seenBy)).size).toBe(ids.length);
    for (const name of names) {
      expectSafe(name);
      expect(statSync(join(drawn, name)).mode & 0o777).toBe(0o600);
    }
    const titles = names.map((name) => readFileSync(join(drawn, name), "utf8"));
    expect(titles.every((text) => /^<svg [\s\S]*<\/svg>\s*$/.test(text))).toBe(true);
  });

  test("keeps a plain name, and gives the same names again", async () => {
    const first = readdirSync((await draw("again", ["2026-03-02-1", "take.wav#0123456789ab", "a/b"])).drawn);
    expect(first).toEqual([
      "2026-03-02-1.svg",
      expect.stringMatching(/^a-b\+[\da-f]{12}\.svg$/),
      "take.wav#0123456789ab.svg",
    ]);
    expect(readdirSync((await draw("again", ["a/b", "2026-03-02-1", "take.wav#0123456789ab"])).drawn)).toEqual(first);
  });

  test("draws two takes of one name in two files, and one take given twice in one", async () => {
    const { drawn } = await draw("twice", ["first", "first"]);
    expect(readdirSync(drawn)).toEqual([expect.stringMatching(/^first\+[\da-f]{12}\.svg$/), "first.svg"]);
    const takes = join(folder, "one.json");
    writeFileSync(takes, JSON.stringify({ id: "one", zero: "bar-1", onsets }));
    await saidBy(["assess", COURSE, "steady", "1", takes, takes, "--pictures", join(folder, "one")]);
    expect(readdirSync(join(folder, "one"))).toEqual(["one.svg"]);
  });

  test("closes to others what an earlier version drew for all, and what it left unfinished", async () => {
    const drawn = join(folder, "before");
    mkdirSync(drawn);
    for (const name of ["first.svg", "first.svg.part"]) writeFileSync(join(drawn, name), "", { mode: 0o644 });
    await draw("before", ["first"]);
    expect(readdirSync(drawn)).toEqual(["first.svg"]);
    expect(statSync(join(drawn, "first.svg")).mode & 0o777).toBe(0o600);
  });

  test("says that a name is taken by a folder, and leaves nothing unfinished", async () => {
    mkdirSync(join(folder, "taken", "first.svg"), { recursive: true });
    const { status, err, drawn } = await draw("taken", ["first"]);
    expect(status).toBe(1);
    expect(err).toContain("OUTPUT_UNWRITABLE");
    expect(readdirSync(drawn)).toEqual(["first.svg"]);
  });
});

const signs = fc.constantFrom(...'aAbB/\\?*:|<>"-.~ +#_\0\n\ud800\udc00\u0301\u00e9\u202e\u00df\u0130\ufb01');
const hostile = fc.oneof(
  fc.string({ unit: signs, minLength: 1, maxLength: 8 }),
  fc.string({ unit: "binary", minLength: 1, maxLength: 300 }),
  fc.constantFrom(
    "con",
    "CON",
    "con.txt",
    "aux ",
    "com1",
    "com\u00b9",
    "lpt9.a.b",
    "nul",
    ".",
    "..",
    "-",
    "a+0123456789ab",
  ),
);

describe("pictureNames()", () => {
  test("gives takes of different names different files on any file system, and safe ones", () => {
    fc.assert(
      fc.property(fc.uniqueArray(hostile, { minLength: 2, maxLength: 30 }), (ids) => {
        const nameOf = pictureNames();
        const names = ids.map((id) => `${nameOf(id, "picture")}.svg`);
        expect(new Set(names.map(seenBy)).size).toBe(ids.length);
        for (const name of names) expectSafe(name);
        const again = pictureNames();
        expect([...ids].reverse().map((id) => `${again(id, "picture")}.svg`)).toEqual([...names].reverse());
      }),
    );
  });
});

describe("fileNamesOf()", () => {
  test("gives different names different files on any file system, whatever they are", () => {
    fc.assert(
      fc.property(fc.uniqueArray(hostile, { minLength: 2, maxLength: 30 }), (names) => {
        const nameOf = fileNamesOf(names, { taken: ["concert-score"] });
        const files = names.map(nameOf);
        expect(new Set([...files, "concert-score"].map(seenBy)).size).toBe(names.length + 1);
        for (const file of files) {
          expectSafe(file);
          expect(file).toMatch(/^[\p{L}\p{N}.-]+(?:_[\da-f]{12})?$/u);
        }
      }),
    );
  });

  test("spells a name in small letters without marks, where no other is spelt so", () => {
    const names = ["half-bar", "Cornet in B\u266d", "B.C", "Fl\u00f6te", "\u30c9\u30a2"];
    expect(names.map(fileNamesOf(names))).toEqual(["half-bar", "cornet-in-b", "b-c", "flote", "\u30c9\u30a2"]);
    expect(fileNamesOf(["Quay", "quay"])("quay")).toMatch(/^quay_[\da-f]{12}$/);
  });

  test("leaves the underscore to what follows a name, such as the number of a page", () => {
    const nameOf = fileNamesOf(["horn", "horn 1", "horn_1"]);
    expect(["horn", "horn 1", "horn_1"].map(nameOf)).toEqual([
      "horn",
      expect.stringMatching(/^horn-1_[\da-f]{12}$/),
      expect.stringMatching(/^horn-1_[\da-f]{12}$/),
    ]);
  });
});
