import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { ROOT } from "./sources.js";

/** What npm would pack, by its own account. */
function packed(): readonly string[] {
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  const { stdout } = spawnSync(npm, ["pack", "--dry-run", "--ignore-scripts", "--json"], {
    cwd: ROOT,
    encoding: "utf8",
  });
  const [{ files }] = JSON.parse(stdout) as [{ readonly files: readonly { readonly path: string }[] }];
  return files.map(({ path }) => path);
}

/** Every file of the repository, and not what is made or installed. */
function kept(): readonly string[] {
  const folders = ["curricula", "lib", "schemas", "tests"];
  const inside = folders.flatMap((folder) =>
    readdirSync(join(ROOT, folder), { encoding: "utf8", recursive: true }).map((file) =>
      `${folder}/${file}`.replaceAll("\\", "/"),
    ),
  );
  return [...inside, ...readdirSync(ROOT)];
}

/** The text of a page without its examples, in which brackets are no links. */
const proseOf = (text: string): string => text.replaceAll(/^ *```[\s\S]*?^ *```/gm, "").replaceAll(/`[^`\n]*`/g, "");

/** Where the links of a page lead: those in brackets, those defined below, and those of HTML. */
function linksOf(text: string): readonly string[] {
  const prose = proseOf(text);
  const found = [/\]\(<?([^)\s>]+)>?(?: "[^"]*")?\)/g, /^\[[^\]]+\]: *(\S+)/gm, /\b(?:href|src)="([^"]+)"/g];
  return found.flatMap((pattern) => Array.from(prose.matchAll(pattern), ([, link]) => link!));
}

/** The anchors of the headings of a page, as GitHub and npm make them: lower case, without punctuation, blanks as hyphens, a number from the second on. */
function anchorsOf(text: string): ReadonlySet<string> {
  const anchors = new Set<string>();
  for (const [, heading] of text.replaceAll(/^ *```[\s\S]*?^ *```/gm, "").matchAll(/^#{1,6} +(.+?) *#*$/gm)) {
    const name = heading!
      .replaceAll(/\[([^\]]*)\]\([^)]*\)/g, "$1")
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N}\s_-]/gu, "")
      .replaceAll(/\s/g, "-");
    let anchor = name;
    for (let n = 1; anchors.has(anchor); n++) anchor = `${name}-${n}`;
    anchors.add(anchor);
  }
  return anchors;
}

/** Links of a page that lead to nothing among `files`. */
function brokenIn(page: string, files: ReadonlySet<string>): readonly string[] {
  return linksOf(readFileSync(join(ROOT, page), "utf8")).filter((link) => {
    if (/^(?:https?|mailto):/.test(link)) return !URL.canParse(link);
    const [path = "", anchor] = link.split("#");
    const target = path === "" ? page : join(dirname(page), decodeURIComponent(path)).replaceAll("\\", "/");
    if (!files.has(target)) return true;
    return anchor !== undefined && !anchorsOf(readFileSync(join(ROOT, target), "utf8")).has(anchor);
  });
}

const brokenAmong = (files: readonly string[]): readonly string[] => {
  const there = new Set(files);
  const pages = files.filter((file) => file.endsWith(".md"));
  return pages.flatMap((page) => brokenIn(page, there).map((link) => `${page}: ${link}`));
};

describe("the links of pages", () => {
  test("lead somewhere in the package, for every page in it", () => {
    const files = packed();
    expect(files.filter((file) => file.endsWith(".md"))).toContain("README.md");
    expect(brokenAmong(files)).toEqual([]);
  });

  test("lead somewhere in the repository", () => {
    const files = kept();
    expect(files.filter((file) => file.endsWith(".md")).length).toBeGreaterThan(10);
    expect(brokenAmong(files)).toEqual([]);
  });

  test("are found, and so is what is broken", () => {
    expect(linksOf('[a](b.md#c) `[no](no.md)` ![x](<y z.svg>)\n[r]: other.md\n<a href="h.md">')).toEqual([
      "b.md#c",
      "other.md",
      "h.md",
    ]);
    expect([...anchorsOf("# A `b`, c!\n## The same\n## The same\n")]).toEqual(["a-b-c", "the-same", "the-same-1"]);
    expect(brokenIn("README.md", new Set(["README.md"]))).toContain("LICENSE");
  });
});
