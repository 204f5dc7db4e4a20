import { failure, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../model.js";
import { compiledProblem } from "./codes.js";
import { COMPILED_VERSION, type CompactCourse, checksumOf } from "./format.js";

/** What is asked of a file that cannot be used. */
const REMEDY = "compile the course again: leeway compile COURSE.yaml";

/**
 * Opens a course that `compileCourse` or `leeway compile` wrote, without YAML, validators or readers of music: rungs, scores and decisions are those of
 * the course it was compiled from. What the course says is trusted once the checksum is right, which is no protection against intent: open what comes from people you trust.
 *
 * Problems: COMPILED_COURSE_UNREADABLE, COMPILED_VERSION_UNKNOWN, COMPILED_COURSE_ALTERED.
 * @example
 * openCourse("a course that was not compiled").ok // false
 */
export function openCourse(text: string): Result<Curriculum> {
  const document = documentIn(text);
  if (document === undefined) {
    const message = "a compiled course is one JSON document with version, checksum and course; found something else";
    return failure(compiledProblem("COMPILED_COURSE_UNREADABLE", message, {}, REMEDY));
  }
  const { version, checksum, course } = document;
  if (version !== COMPILED_VERSION) {
    const message = `compiled courses of version ${COMPILED_VERSION} can be opened; found version ${JSON.stringify(version)}`;
    return failure(compiledProblem("COMPILED_VERSION_UNKNOWN", message, {}, REMEDY));
  }
  const found = checksumOf(course);
  if (found !== checksum) {
    const message = `the course must have the checksum it was written with, ${JSON.stringify(checksum)}; found ${found}`;
    return failure(compiledProblem("COMPILED_COURSE_ALTERED", message, {}, REMEDY));
  }
  return success(opened(course as CompactCourse));
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
