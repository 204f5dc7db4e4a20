import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import { ROOT } from "../sources.js";

/** A shipped course: "first-course", "odd-meters" or "wind-and-brass". */
export function shipped(name: string): Curriculum {
  return courseOf(readFileSync(join(ROOT, "curricula", `quayside-${name}.yaml`), "utf8"));
}

function courseOf(text: string): Curriculum {
  const read = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
  if (!read.ok) throw new RangeError(JSON.stringify(read.problems));
  return read.value;
}

/** The first course with another gate, and going back, in all drills. */
export function firstCourseWith(rules: string): Curriculum {
  const text = readFileSync(join(ROOT, "curricula", "quayside-first-course.yaml"), "utf8");
  return courseOf(
    text.replaceAll(/ {4}go-back: .*\n/g, "").replaceAll(/ {4}gate: .*\n/g, rules.replaceAll(/^(?=.)/gm, "    ")),
  );
}
