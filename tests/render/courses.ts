import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readerBeside } from "../../lib/cli/input/courseFile.js";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import type { Drill } from "../../lib/drill/index.js";
import { ROOT } from "../sources.js";

const FOLDER = join(ROOT, "curricula");

/** The courses that come with the package. */
const courses: readonly Curriculum[] = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".yaml"))
  .map((name) => {
    const file = join(FOLDER, name);
    const read = readCurriculum(readFileSync(file, "utf8"), { file, readFile: readerBeside(file) });
    if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("; "));
    return read.value;
  });

/** Every drill of them by name. */
export const drills: readonly (readonly [string, Drill])[] = courses.flatMap(({ drills }) =>
  drills.map((drill) => [drill.name, drill] as const),
);
