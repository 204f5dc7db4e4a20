import { readFileSync } from "node:fs";
import { join } from "node:path";

/** The shipped courses, from the project's folder, where tests and benches run. */
export const FOLDER = "curricula";

/** Drills of the course that is copied. */
const DRILLS = 5;

/** The patterns and drills of a course, so many times over, each time under names of their own. */
export function copies(text: string, count: number): string {
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

/** A course of 5,000 drills in about 2 MB of YAML: the shipped one a thousand times over, each time under names of its own. */
export function largeCourse(): string {
  const text = readFileSync(join(FOLDER, "quayside-first-course.yaml"), "utf8");
  const [head = "", patterns = "", drills = ""] = copies(text, 5_000 / DRILLS).split(/^(?:patterns|drills):\n/m);
  // Patterns of the first hundred copies serve all drills.
  const shared = drills.replace(
    /^( +pattern: .*-)(\d+)$/gm,
    (_, before: string, copy: string) => `${before}${Number(copy) % 100}`,
  );
  const few = patterns.split(/^(?= {2}[\w-]+-\d+:\n)/m).filter((block) => Number(/-(\d+):/.exec(block)?.[1]) < 100);
  const lean = shared.replace(/^ {4}(?:title|about): [^>].*\n/gm, "");
  return `${head}patterns:\n${few.join("")}drills:\n${lean}`;
}
