import { canonicalJson } from "../progress/index.js";
import type { CourseText } from "./model.js";

/** Whether two texts of an edition say the same, their files included. */
export function sameCourse(a: CourseText, b: CourseText): boolean {
  const names = Object.keys(a.files).sort();
  return (
    a.text === b.text &&
    names.join("\n") === Object.keys(b.files).sort().join("\n") &&
    names.every((name) => canonicalJson([...a.files[name]!]) === canonicalJson([...b.files[name]!]))
  );
}
