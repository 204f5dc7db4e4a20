import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { COURSE_KEYS, type CourseKey, PLACES, placesWithKeys } from "./courseKeys.js";
import { AROUND, AROUND_ALL, AT, type Draft, draft, FILES } from "./keyExamples.js";

const nameOf = ({ place, name }: CourseKey): string => `${place}.${name}`;

/** A course in which a key has a value, and the JSON pointer of the key. */
function courseWith(key: CourseKey, value: unknown): { readonly course: Draft; readonly pointer: string } {
  const course = draft();
  const { path, with: beside } = AT[key.place]!;
  AROUND_ALL[key.place]?.(course, undefined);
  let place = course;
  for (const [i, step] of path.entries()) {
    place[step] ??= typeof path[i + 1] === "number" ? [] : {};
    if (i === path.length - 1 && beside !== undefined) place[step] = structuredClone(beside);
    place = place[step];
  }
  AROUND[nameOf(key)]?.(course, place);
  place[key.name] = value;
  return { course, pointer: `/${[...path, key.name].join("/")}` };
}

const problemsOf = (course: Draft) => problemsIn(readCurriculum(JSON.stringify(course), FILES));

/** Keys that take any text, but no keys of their own. */
const FREE = new Set([
  ...[".title", ".author", ".arranger", ".copyright", ".licence", ".logo", ".about"],
  ...["pattern.title", "pattern.author", "pattern.arranger", "drill.title", "drill.about", "drill.formerly"],
]);

describe("the keys of a course", () => {
  test("all stand in a place that the guide names", () => {
    expect(Object.keys(PLACES).sort()).toEqual([...placesWithKeys].sort());
    expect(COURSE_KEYS.filter(({ examples }) => examples.length === 0).map(nameOf)).toEqual([]);
  });

  test.each(COURSE_KEYS.map((key) => [nameOf(key), key] as const))("%s: its example is read", (_name, key) => {
    const { course } = courseWith(key, key.examples[0]);
    expect(problemsOf(course)).toEqual([]);
  });

  test.each(COURSE_KEYS.map((key) => [nameOf(key), key] as const))("%s: nonsense is named", (name, key) => {
    const { course, pointer } = courseWith(key, FREE.has(name) ? {} : "?!");
    expect(problemsOf(course).filter(({ where }) => `${where.pointer}/`.startsWith(`${pointer}/`))).not.toEqual([]);
  });
});
