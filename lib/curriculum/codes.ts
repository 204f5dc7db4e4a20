import { problemsOf } from "../base/index.js";

/** Problems with a curriculum as a file and as a course. The problems of meters, notes and ladders are in the catalogues of their rooms. */
export const curriculumCodes = {
  TEXT_TOO_LARGE: "error",
  TOO_MANY_TOKENS: "error",
  NESTED_TOO_DEEPLY: "error",
  YAML_SYNTAX: "error",
  LINE_NEEDS_QUOTES: "error",
  NOT_REWRITTEN: "error",
  FORMER_KEY: "error",
  EMPTY_FILE: "error",
  SEVERAL_DOCUMENTS: "error",
  TAG_NOT_ALLOWED: "error",
  DUPLICATE_KEY: "error",
  KEY_NOT_TEXT: "error",
  ALIAS_UNKNOWN: "error",
  ALIAS_OF_ITSELF: "error",
  ALIASES_TOO_LARGE: "error",
  NUMBER_NOT_FINITE: "error",
  TOO_MANY_PROBLEMS: "error",
  PATH_LEAVES_FOLDER: "error",
  PATTERNS_NOT_FOUND: "error",
  PATTERNS_FORM: "error",
  PATTERNS_IN_A_CIRCLE: "error",
  PATTERN_TWICE: "error",
  FILE_TOO_LARGE: "error",
  COURSE_TOO_LARGE: "error",
  DRILL_UNKNOWN: "error",
  NEEDS_ITSELF: "error",
  DRILL_UNREACHABLE: "error",
  FORMER_NAME_IN_USE: "error",
  PITCH_AS_READ: "advice",
  EDITIONS_OF_TWO_COURSES: "error",
  EDITION_NOT_RAISED: "advice",
  EDITION_LOWERED: "advice",
  CREDIT_LOST: "advice",
  DRILLS_JOINED: "advice",
} as const;

/** Makes a problem of this catalogue. */
export const problem: ReturnType<typeof problemsOf<typeof curriculumCodes>> = problemsOf(curriculumCodes);
