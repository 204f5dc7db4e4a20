import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Problem, problemsIn } from "../../lib/base/index.js";
import { factsBeside, readerBeside } from "../../lib/cli/input/courseFile.js";
import { readCurriculum } from "../../lib/curriculum/index.js";

const FOLDER = new URL("../problems/", import.meta.url).pathname;

/** What the broken courses of `tests/problems` are answered with. */
export function problemsOfBrokenCourses(): readonly Problem[] {
  return readdirSync(FOLDER).flatMap((name) => {
    const path = name.endsWith(".yaml") ? join(FOLDER, name) : join(FOLDER, name, "course.yaml");
    return problemsIn(
      readCurriculum(readFileSync(path, "utf8"), {
        file: path,
        readFile: readerBeside(path),
        readRecording: factsBeside(path),
      }),
    );
  });
}
