import { createHash } from "node:crypto";
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { saidBy } from "../../cli/said.js";
import { must } from "../../time/shorthand.js";

/**
 * The shipped courses as they stood before lines of notes and keys had their present spelling, and digests of the scores (JSON, first 32 digits of
 * its SHA-256, from the first rung on) that leeway made of them at that time. Of `tidewater-dropouts` they are those of the last revision with the
 * former keys: its silences lie where they were drawn, and the numbers that chance gives had been changed meanwhile.
 */
const FORMER = new URL("quayside/", import.meta.url);
const COURSES = ["quayside-first-course", "quayside-odd-meters", "quayside-wind-and-brass"];
const SCORES = JSON.parse(readFileSync(new URL("scores.json", FORMER), "utf8")) as Record<string, readonly string[]>;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-quayside-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const courseIn = (path: string) =>
  readCurriculum(readFileSync(path, "utf8"), { file: path, readFile: () => undefined });

/** A score as it was written with the former names of its fields, and before scores said the version of their format. */
function formerText(score: Score): string {
  const { version: _, ...rest } = score;
  return JSON.stringify(rest).replaceAll('"landing":', '"reentry":').replaceAll('"landingMs":', '"reentryMs":');
}

const digestOf = (text: string): string => createHash("sha256").update(text).digest("hex").slice(0, 32);

describe.each(COURSES)("%s as it stood before", (name) => {
  test("is refused with the present spelling of each line and key", () => {
    const codes = problemsIn(courseIn(new URL(`${name}.yaml`, FORMER).pathname)).map(({ code }) => code);
    expect(codes).toContain("FORMER_SPELLING");
    expect(codes).toContain("FORMER_KEY");
    expect(codes.filter((code) => !code.startsWith("FORMER_"))).toEqual([]);
  });

  test("rewritten by the command has the scores it had, to the byte but for renamed fields", async () => {
    const path = join(folder, `${name}.yaml`);
    copyFileSync(new URL(`${name}.yaml`, FORMER), path);
    expect(await saidBy(["check", "--rewrite", path])).toEqual({ status: 0, out: `${path}: rewritten\n`, err: "" });
    for (const drill of must(courseIn(path)).drills) {
      const ladder = rungs(drill);
      const digests = Array.from({ length: ladder.count }, (_, i) => digestOf(formerText(scoreOf(ladder.at(i)))));
      expect(digests, drill.name).toEqual(SCORES[drill.name]);
    }
  });

  test("rewritten keeps its comments and all else but keys and lines", async () => {
    const before = readFileSync(new URL(`${name}.yaml`, FORMER), "utf8");
    const after = readFileSync(join(folder, `${name}.yaml`), "utf8");
    const comments = (text: string): readonly string[] => text.match(/(?:^|\s)#.*$/gm) ?? [];
    expect(comments(after)).toEqual(comments(before));
    const kept = (text: string): readonly string[] => text.match(/^ *(?:title|about|meter|bars|needs|gate).*$/gm) ?? [];
    expect(kept(after)).toEqual(kept(before));
  });
});
