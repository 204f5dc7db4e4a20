import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT } from "../sources.js";
import { courseFrom } from "./courses.js";

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
