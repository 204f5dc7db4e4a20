import { problemsOf } from "../base/index.js";

/** Problems with a curriculum as a file and as a course. The problems of meters, notes and ladders are in the catalogues of their rooms. */
export const curriculumCodes = {
  TEXT_TOO_LARGE: {
    severity: "error",
    means: "The curriculum, or one pattern or drill, has more characters than it may have.",
  },
  TOO_MANY_TOKENS: { severity: "error", means: "The curriculum falls into more YAML tokens than a curriculum may." },
  NESTED_TOO_DEEPLY: { severity: "error", means: "Lists and keys are nested deeper than a curriculum may be." },
  YAML_SYNTAX: { severity: "error", means: "The text is not YAML 1.2; nothing else can be checked until it is." },
  LINE_NEEDS_QUOTES: {
    severity: "error",
    means:
      "A line of notes, drums or chords, a title or another text has a sign that YAML takes for its own (a dash, a bar line, ! # & : [).",
  },
  NOT_REWRITTEN: {
    severity: "error",
    means: "A line of the former spelling cannot be rewritten, or the rewritten course would differ.",
  },
  FORMER_KEY: { severity: "error", means: "A key that has another name now (the message names both)." },
  EMPTY_FILE: { severity: "error", means: "There is nothing in the file, or only comments." },
  SEVERAL_DOCUMENTS: { severity: "error", means: "The file holds more than one YAML document." },
  TAG_NOT_ALLOWED: { severity: "error", means: "A YAML tag (a word after !) other than those of plain data." },
  DUPLICATE_KEY: { severity: "error", means: "The same key twice in one place." },
  KEY_NOT_TEXT: { severity: "error", means: "A key that is empty, or a list, or an alias." },
  ALIAS_UNKNOWN: { severity: "error", means: "A YAML alias (*name) without an anchor (&name) before it." },
  ALIAS_OF_ITSELF: { severity: "error", means: "A YAML alias inside the very thing it stands for." },
  ALIASES_TOO_LARGE: { severity: "error", means: "With every alias written out the curriculum would be too large." },
  NUMBER_NOT_FINITE: { severity: "error", means: "A number that is infinite, too large to hold, or not a number." },
  TOO_MANY_PROBLEMS: { severity: "error", means: "There are more problems than are listed." },
  PATH_LEAVES_FOLDER: {
    severity: "error",
    means: "A file that is not named by a plain path below the curriculum's folder.",
  },
  PATTERNS_NOT_FOUND: {
    severity: "error",
    means: "The file that patterns are to be taken from is not there, or cannot be opened where the course is read.",
  },
  PATTERNS_FORM: {
    severity: "error",
    means: "Patterns are taken from a file and written in the course too, or the file has none, or too many files lead to it.",
  },
  PATTERNS_IN_A_CIRCLE: { severity: "error", means: "Files of patterns that take their patterns from each other." },
  PATTERN_TWICE: { severity: "error", means: "Two files of patterns have a pattern of the same name." },
  FILE_TOO_LARGE: { severity: "error", means: "A file, or all files together, larger than a curriculum may use." },
  COURSE_TOO_LARGE: {
    severity: "error",
    means: "Patterns, ladders and players multiply to more than is checked in one course.",
  },
  DRILL_UNKNOWN: { severity: "error", means: "The curriculum has no drill of this name, neither now nor formerly." },
  NEEDS_ITSELF: {
    severity: "error",
    means: "Drills that need each other in a circle, so that none of them ever opens.",
  },
  DRILL_UNREACHABLE: { severity: "error", means: "A drill that never opens, because one it needs never opens." },
  FORMER_NAME_IN_USE: {
    severity: "error",
    means: "A drill's former name that a drill still has, or that two drills claim.",
  },
  EDITIONS_OF_TWO_COURSES: {
    severity: "error",
    means: "Two files are compared as editions of one course and are of different courses.",
  },
  EDITION_NOT_RAISED: { severity: "advice", means: "A course was changed, and its edition number was not." },
  EDITION_LOWERED: {
    severity: "advice",
    means: "A new edition has a lower number than the one it is to follow.",
  },
  CREDIT_LOST: {
    severity: "advice",
    means: "A new edition does not have rungs of the old one: what students have shown there does not count in it.",
  },
  DRILLS_JOINED: {
    severity: "advice",
    means: "Two drills go on as one in a new edition, and students who have begun both can keep only one.",
  },
} as const;

/** Makes a problem of this catalogue. */
export const problem: ReturnType<typeof problemsOf<typeof curriculumCodes>> = problemsOf(curriculumCodes);
