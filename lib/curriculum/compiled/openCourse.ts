import { failure, success, type Worded } from "../../base/index.js";
import type { Curriculum } from "../model.js";
import type { Result } from "../problem.js";
import { type compiledCodes, compiledProblem } from "./codes.js";
import { COMPILED_VERSION, type CompactCourse, checksumOf } from "./format.js";
import { say } from "./say.js";

/**
 * Opens a course that `compileCourse` or `leeway compile` wrote, without YAML, validators or readers of music: rungs, scores and decisions are those of
 * the course it was compiled from. Throws `TypeError` when it is given no text, such as JSON that was parsed already. What the course says is trusted once the checksum is right, which is no protection against intent: open what comes from people you trust.
 *
 * Problems: COMPILED_COURSE_UNREADABLE, COMPILED_VERSION_UNKNOWN, COMPILED_COURSE_ALTERED.
 * @example
 * openCourse("a course that was not compiled").ok // false
 */
export function openCourse(text: string): Result<Curriculum> {
  if (typeof text !== "string") throw new TypeError("openCourse takes text");
  const document = documentIn(text);
  if (document === undefined)
    return refused("COMPILED_COURSE_UNREADABLE", say("compiled-problem.compiled-course-unreadable"));
  const { version, checksum, course } = document;
  if (version !== COMPILED_VERSION) {
    const versions = { known: String(COMPILED_VERSION), found: String(JSON.stringify(version)) };
    return refused("COMPILED_VERSION_UNKNOWN", say("compiled-problem.compiled-version-unknown", versions));
  }
  const found = checksumOf(course);
  if (found !== checksum) {
    const written = String(JSON.stringify(checksum));
    return refused("COMPILED_COURSE_ALTERED", say("compiled-problem.compiled-course-altered", { written, found }));
  }
  return success(opened(course as CompactCourse));
}

/** A file that cannot be used is compiled again. */
function refused(code: keyof typeof compiledCodes, message: Worded): Result<never> {
  return failure(compiledProblem(code, message, {}, say("compiled-problem.remedy")));
}

interface CompiledDocument {
  readonly version: unknown;
  readonly checksum: unknown;
  readonly course: object;
}

function documentIn(text: string): CompiledDocument | undefined {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== "object" || value === null || !("version" in value)) return undefined;
    return "course" in value && typeof value.course === "object" && value.course !== null
      ? (value as CompiledDocument)
      : undefined;
  } catch {
    return undefined;
  }
}

function opened({ played, drills, ...course }: CompactCourse): Curriculum {
  return {
    ...course,
    drills: drills.map(({ pattern, players, ...drill }) => ({
      ...drill,
      pattern: course.patterns[pattern]!,
      players: players.map(({ instrument, octave }) => ({ instrument: played[instrument]!, octave })),
    })),
  };
}
