import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type ProblemCatalogue, problemsIn } from "../lib/base/index.js";
import { meaningOf } from "../lib/cli/explain/explain.js";
import { factsBeside, readerBeside } from "../lib/cli/input/courseFile.js";
import { readCurriculum } from "../lib/curriculum/index.js";
import { messages } from "../lib/words/generated/en.js";
import { english, type Topic, wordsOf } from "../lib/words/index.js";
import { ROOT } from "./sources.js";

const { say } = wordsOf<Topic>(english, messages);
const FIXTURES = join(ROOT, "tests", "problems");

/** Every code, as often as it is in a catalogue. */
const listed: string[] = [];
/** Folder of lib -> its problem codes, those of its parts included. */
const catalogues = new Map<string, ProblemCatalogue>();
for (const file of readdirSync(join(ROOT, "lib"), { encoding: "utf8", recursive: true }).sort()) {
  const [folder, ...path] = file.replaceAll("\\", "/").split("/");
  if (path.at(-1) !== "codes.ts") continue;
  const module = (await import(/* @vite-ignore */ join(ROOT, "lib", file))) as Record<string, unknown>;
  const found = Object.entries(module).flatMap(([name, value]) =>
    name.endsWith("Codes") ? [value as ProblemCatalogue] : [],
  );
  for (const catalogue of found) for (const code of Object.keys(catalogue)) listed.push(code);
  catalogues.set(folder!, Object.assign({}, catalogues.get(folder!), ...found) as ProblemCatalogue);
}
const codes = [...catalogues.values()].flatMap((catalogue) => Object.keys(catalogue));

/** Fixtures and the code they break: `CODE.yaml` or `CODE@detail.yaml`, or such a folder with `course.yaml` and files beside it. */
const fixtures = readdirSync(FIXTURES)
  .filter((name) => name.endsWith(".yaml") || statSync(join(FIXTURES, name)).isDirectory())
  .map((name) => ({
    name,
    code: name.replace(/(?:@.*)?(?:\.yaml)?$/, ""),
    path: name.endsWith(".yaml") ? join(FIXTURES, name) : join(FIXTURES, name, "course.yaml"),
  }));

/** What gives the files and recordings beside a course. */
function readersBeside(path: string) {
  return { readFile: readerBeside(path), readRecording: factsBeside(path) };
}

/** The text of every test of a folder. */
function testsOf(folder: string): string {
  const path = join(ROOT, "tests", folder);
  const files = existsSync(path) ? readdirSync(path, { encoding: "utf8", recursive: true }) : [];
  return files
    .filter((file) => file.endsWith(".test.ts"))
    .map((file) => readFileSync(join(path, file), "utf8"))
    .join("\n");
}

describe("problem codes", () => {
  test("name their cause in capitals, and no code is in two catalogues", () => {
    for (const code of codes) expect(code).toMatch(/^[A-Z][A-Z0-9]*(?:_[A-Z0-9]+)*$/);
    expect(listed.filter((code, i) => listed.indexOf(code) !== i)).toEqual([]);
  });

  test("have a meaning each among the messages, which is a sentence, and no meaning is without a code", () => {
    for (const code of codes) expect(meaningOf(code, say)).toMatch(/\w.*\.$/);
    expect(Object.keys(messages).filter((key) => key.startsWith("code.")).length).toBe(codes.length);
  });

  test("have a broken course each, or are raised in a test of their folder", () => {
    const broken = new Set(fixtures.map(({ code }) => code));
    expect([...broken].filter((code) => !codes.includes(code))).toEqual([]);
    const untested = [...catalogues].flatMap(([folder, catalogue]) => {
      // Codes no course can raise: of journals, takes, names of rungs, files on the command line.
      const tests = testsOf(folder);
      return Object.keys(catalogue).filter((code) => !broken.has(code) && !new RegExp(`\\b${code}\\b`).test(tests));
    });
    expect(untested).toEqual([]);
  });

  test.each(fixtures)("$name is refused with its code, at the place it names", ({ code, path }) => {
    const text = readFileSync(path, "utf8");
    const problems = problemsIn(readCurriculum(text, { file: path, ...readersBeside(path) }));
    const raised = problems.map(({ code: each, where }) => `${each} ${where.line}:${where.column}`);
    expect(problems.map((problem) => problem.code)).toContain(code);
    // "# expect: CODE line:column" at the top of a broken course says where the problem is to be found.
    for (const [, expected] of text.matchAll(/^# expect: (.+)$/gm)) expect(raised).toContain(expected);
    for (const { message, where } of problems) {
      expect(message).not.toBe("");
      expect(where.line, message).toBeGreaterThanOrEqual(1);
      expect(where.column, message).toBeGreaterThanOrEqual(1);
    }
  });
});

interface Piece {
  readonly [key: string]: unknown;
}

const schemas = readdirSync(join(ROOT, "schemas"))
  .filter((file) => file.endsWith(".schema.json"))
  .map((file) => [file, JSON.parse(readFileSync(join(ROOT, "schemas", file), "utf8")) as Piece] as const);

/** Every named property in a schema, with its path; a property that refers to a definition has what the definition says. */
function propertiesOf(root: Piece, piece: unknown = root, path = ""): readonly (readonly [string, Piece])[] {
  if (Array.isArray(piece)) return piece.flatMap((part, i) => propertiesOf(root, part, `${path}/${i}`));
  if (piece === null || typeof piece !== "object") return [];
  return Object.entries(piece).flatMap(([key, value]): readonly (readonly [string, Piece])[] => {
    if (["examples", "default", "enum", "const"].includes(key)) return [];
    const own =
      key === "properties"
        ? Object.entries(value as Record<string, Piece>).map(
            ([name, property]) => [`${path}/${name}`, { ...definition(root, property), ...property }] as const,
          )
        : [];
    return [...own, ...propertiesOf(root, value, `${path}/${key}`)];
  });
}

function definition(root: Piece, { $ref }: Piece): Piece {
  if (typeof $ref !== "string") return {};
  const [file, pointer] = $ref.split("#");
  const document = file === "" ? root : (schemas.find(([name]) => file!.endsWith(name))?.[1] ?? {});
  if (!pointer) return document;
  return pointer
    .split("/")
    .slice(1)
    .reduce<Piece>((piece, key) => piece[key] as Piece, document);
}

describe.each(schemas)("%s", (file, schema) => {
  test("is JSON Schema 2020-12, with a name, a description and an identity of its own", () => {
    expect(schema).toMatchObject({
      $schema: "https://json-schema.org/draft/2020-12/schema",
      $id: expect.stringMatching(new RegExp(`/${file}$`)),
    });
    expect(schema.title).toMatch(/^[A-Z][A-Za-z]+$/);
    expect(schema.description).toMatch(/\.$/);
  });

  test("describes every property in a sentence", () => {
    const without = propertiesOf(schema).filter(
      ([, piece]) => typeof piece.description !== "string" || !/[.!?]$/.test(piece.description),
    );
    expect(without.map(([path]) => path)).toEqual([]);
  });
});

describe("shipped courses", () => {
  const shipped = readdirSync(join(ROOT, "curricula")).filter((file) => file.endsWith(".yaml"));

  test("are there", () => expect(shipped.length).toBeGreaterThanOrEqual(3));

  test.each(shipped)("%s has neither problems nor advice, and names its schema for editors", (file) => {
    const path = join(ROOT, "curricula", file);
    const text = readFileSync(path, "utf8");
    expect(text).toMatch(/^# yaml-language-server: \$schema=\.\.\/schemas\/curriculum\.schema\.json$/m);
    expect(problemsIn(readCurriculum(text, { file, ...readersBeside(path) }))).toEqual([]);
  });
});
