import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { pythonWith, saidBy } from "../../python.js";
import { ROOT } from "../../sources.js";

/*
 * The shipped courses, read by ruamel.yaml (Python, MIT), which has code of its own and knows both versions of YAML.
 */

const FOLDER = join(ROOT, "curricula");
const FILES = readdirSync(FOLDER, { encoding: "utf8", recursive: true }).filter((file) => file.endsWith(".yaml"));
const python = pythonWith("ruamel.yaml");
const read =
  python === undefined
    ? []
    : saidBy<readonly Readonly<Record<"1.1" | "1.2", unknown>>[]>(
        python,
        "curriculum/yaml/readYaml.py",
        FILES.map((file) => join(FOLDER, file)),
      );

/** The leaves in which two values differ: [pointer, one, other]. */
function differences(one: unknown, other: unknown, pointer = ""): readonly (readonly [string, unknown, unknown])[] {
  const areBoth = [one, other].every((value) => typeof value === "object" && value !== null);
  if (!areBoth) return Object.is(one, other) ? [] : [[pointer, one, other]];
  const [a, b] = [one as Record<string, unknown>, other as Record<string, unknown>];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].flatMap((key) =>
    differences(a[key], b[key], `${pointer}/${key}`),
  );
}

describe.skipIf(python === undefined)("another reader of YAML", () => {
  test.each(FILES.map((file, i) => [file, i] as const))("reads %s as version 1.2 as it is read here", (file, i) => {
    expect(differences(parse(readFileSync(join(FOLDER, file), "utf8")), read[i]!["1.2"])).toEqual([]);
  });

  test("of version 1.1 takes `off` for false, and nothing else for something else", () => {
    const found = FILES.flatMap((_, i) => differences(read[i]!["1.2"], read[i]!["1.1"]));
    expect(found.length).toBeGreaterThan(0);
    for (const [pointer, present, old] of found) expect([pointer, present, old]).toEqual([pointer, "off", false]);
  });

  test("of version 1.1 takes words for true or false and a time for a number, as the guide says, and of 1.2 does not", () => {
    const folder = mkdtempSync(join(tmpdir(), "leeway-words-"));
    const text = "- off\n- no\n- yes\n- 1:30\n";
    writeFileSync(join(folder, "words.yaml"), text);
    const [other] = saidBy<typeof read>(python!, "curriculum/yaml/readYaml.py", [join(folder, "words.yaml")]);
    expect(other).toEqual({ "1.1": [false, false, true, 90], "1.2": ["off", "no", "yes", "1:30"] });
    expect(parse(text)).toEqual(other!["1.2"]);
    rmSync(folder, { recursive: true });
  });

  test("reads a course whose lines end with a carriage return alone as the one with line feeds, and so it is read here", () => {
    const folder = mkdtempSync(join(tmpdir(), "leeway-lines-"));
    try {
      for (const [i, file] of FILES.entries()) {
        const text = readFileSync(join(FOLDER, file), "utf8");
        const path = join(folder, basename(file));
        writeFileSync(path, text.replaceAll("\n", "\r"));
        const [other] = saidBy<readonly Readonly<Record<"1.2", unknown>>[]>(python!, "curriculum/yaml/readYaml.py", [
          path,
        ]);
        expect(differences(other!["1.2"], read[i]!["1.2"])).toEqual([]);
        const options = { file, readFile: (name: string) => readFileSync(join(FOLDER, name)) };
        const here = readCurriculum(readFileSync(path, "utf8"), options);
        expect(here.ok).toBe(true);
        expect(JSON.stringify(here)).toBe(JSON.stringify(readCurriculum(text, options)));
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
