import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT } from "../sources.js";
import { courseFrom, placesIn } from "./courses.js";

const FOLDER = join(ROOT, "curricula");
const COPIES = 50;

/** The patterns and drills of a course, so many times over, each time under names of their own. */
function copies(text: string, count: number): string {
  const [head = "", patterns = "", drills = ""] = text.split(/^(?:patterns|drills):\n/m);
  const renamed = (section: string, copy: number): string =>
    section
      .replace(/^( {2})(\w[\w -]*):/gm, `$1$2-${copy}:`)
      .replace(/^( +pattern: )(\w[\w -]*)$/gm, `$1$2-${copy}`)
      .replace(/^( +needs: )\[(.*)\]$/gm, (_, key: string, needs: string) => {
        const all = needs.split(",").map((name) => `${name.trim()}-${copy}`);
        return `${key}[${all.join(", ")}]`;
      })
      // Anchors may be given anew: an alias means the last one before it.
      .replace(/\n*$/, "\n");
  const all = (section: string): string => Array.from({ length: count }, (_, copy) => renamed(section, copy)).join("");
  return `${head}patterns:\n${all(patterns)}drills:\n${all(drills)}`;
}

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
  const text = readFileSync(join(FOLDER, "quayside-first-course.yaml"), "utf8");
  const drillsOnce = courseFrom(text).drills.length;
  const [head = "", patterns = "", drills = ""] = copies(text, 5_000 / drillsOnce).split(/^(?:patterns|drills):\n/m);
  // Patterns of the first hundred copies serve all drills.
  const shared = drills.replace(
    /^( +pattern: .*-)(\d+)$/gm,
    (_, before: string, copy: string) => `${before}${Number(copy) % 100}`,
  );
  const few = patterns.split(/^(?= {2}[\w-]+-\d+:\n)/m).filter((block) => Number(/-(\d+):/.exec(block)?.[1]) < 100);
  const lean = shared.replace(/^ {4}(?:title|about): [^>].*\n/gm, "");
  const large = `${head}patterns:\n${few.join("")}drills:\n${lean}`;
  expect(large.length).toBeGreaterThan(1_900_000);
  expect(courseFrom(large).drills).toHaveLength(5_000);
  const place = large.lastIndexOf("student: lead");
  const wrong = `${large.slice(0, place)}student: leed${large.slice(place + 13)}`;
  expect(placesIn(wrong)).toEqual([`PART_UNKNOWN ${wrong.slice(0, place).split("\n").length}:14`]);
});
