import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { courseFrom, placesIn } from "./courses.js";
import { copies, FOLDER, largeCourse } from "./largeCourse.js";

const COPIES = 50;

test.each(readdirSync(FOLDER).filter((name) => name.endsWith(".yaml")))(
  `%s, ${COPIES} times over in one file, is a course without problems of size`,
  (name) => {
    const text = readFileSync(join(FOLDER, name), "utf8");
    const once = courseFrom(text).drills.length;
    const large = copies(text, COPIES);
    expect(large.length).toBeGreaterThan(100_000);
    expect(courseFrom(large).drills).toHaveLength(COPIES * once);
  },
);

test("5,000 drills in 2 MB are a course, and a slip in one of them is found at its place", () => {
  const large = largeCourse();
  expect(large.length).toBeGreaterThan(1_900_000);
  expect(courseFrom(large).drills).toHaveLength(5_000);
  const place = large.lastIndexOf("student: lead");
  const wrong = `${large.slice(0, place)}student: leed${large.slice(place + 13)}`;
  expect(placesIn(wrong)).toEqual([`PART_UNKNOWN ${wrong.slice(0, place).split("\n").length}:14`]);
});
