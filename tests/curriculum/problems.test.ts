import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse, stringify } from "yaml";
import { problemsIn } from "../../lib/base/index.js";
import { factsBeside, readerBeside } from "../../lib/cli/input/courseFile.js";
import { readCurriculum } from "../../lib/curriculum/index.js";

const FOLDER = new URL("../problems/", import.meta.url).pathname;

/** Broken courses: `CODE.yaml`, `CODE@which.yaml`, or a folder `CODE` with `course.yaml` and what it needs beside it. */
const COURSES = readdirSync(FOLDER).flatMap((name) => {
  if (name.endsWith(".yaml")) return [[name.replace(/\.yaml$/, ""), join(FOLDER, name)] as const];
  return statSync(join(FOLDER, name)).isDirectory() ? [[name, join(FOLDER, name, "course.yaml")] as const] : [];
});

describe("a broken course is answered with its problem, at its place, and with nothing else", () => {
  test.each(COURSES)("%s", (name, path) => {
    const text = readFileSync(path, "utf8");
    const expected = [...text.matchAll(/^# expect: ([A-Z_]+ \d+:\d+)$/gm)].map((match) => match[1]!);
    expect(expected.some((each) => each.startsWith(`${name.replace(/@.*/, "")} `))).toBe(true);
    const problems = problemsIn(
      readCurriculum(text, { file: path, readFile: readerBeside(path), readRecording: factsBeside(path) }),
    );
    expect(problems.map((each) => `${each.code} ${each.where.line}:${each.where.column}`).sort()).toEqual(
      [...expected].sort(),
    );
    const remedies = [...text.matchAll(/^# remedy: (.+)$/gm)].map((match) => match[1]!);
    if (remedies.length > 0) expect(problems.map(({ remedy }) => remedy)).toEqual(remedies);
    for (const { message, where, remedy } of problems) {
      expect(message, "names of types are not for people").not.toMatch(/[a-z][A-Z][a-z]|Document\b/);
      expect(message).toMatch(/\S/);
      expect(message).not.toMatch(/undefined|\[object|NaN/);
      expect(remedy, `${message} says what to write instead`).toMatch(/\S/);
      expect(remedy).not.toMatch(/undefined|\[object|NaN/);
      // A problem of a file of patterns names that file.
      expect(where.file === path || /^\w+\.yaml$/.test(where.file ?? "")).toBe(true);
      expect(where.pointer).toMatch(/^(\/.*)?$/);
    }
  });

  test("sixty and more mistakes of musicians who are no programmers are answered with what to write", () => {
    const answered = COURSES.filter(([, path]) => readFileSync(path, "utf8").includes("# remedy: "));
    expect(answered.length).toBeGreaterThanOrEqual(60);
  });

  test("there is one for most codes", () => expect(COURSES.length).toBeGreaterThan(100));
});

test("whatever stands in place of a value of a course, each problem says what to write instead", () => {
  const course = parse(readFileSync(new URL("trial.yaml", import.meta.url), "utf8")) as object;
  let said = 0;
  for (const path of pathsIn(course))
    for (const odd of [7, -1, "two words", true, null, [], {}, ["x"]]) {
      const text = stringify(withAt(course, path, odd));
      for (const { message, remedy } of problemsIn(
        readCurriculum(text, { file: "odd.yaml", readFile: () => undefined }),
      )) {
        said += 1;
        expect(remedy, `${path.join("/")}: ${message}`).toMatch(/\S/);
      }
    }
  expect(said).toBeGreaterThan(500);
});

function pathsIn(value: unknown): readonly (readonly string[])[] {
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, inner]) => [[key], ...pathsIn(inner).map((path) => [key, ...path])]);
}

function withAt(value: object, [key = "", ...rest]: readonly string[], put: unknown): object {
  const copy = Array.isArray(value) ? [...value] : { ...value };
  const holder = copy as Record<string, unknown>;
  holder[key] = rest.length === 0 ? put : withAt(holder[key] as object, rest, put);
  return copy;
}
