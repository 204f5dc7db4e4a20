import { problemsOf } from "../base/index.js";

/** Problems with what students, teachers and their apps ask for. */
export const practiceCodes = {
  STUDENT_UNKNOWN: "error",
  STUDENT_NAME_LENGTH: "error",
  STUDENT_NAME_UNSEEN: "error",
  NOT_ENROLLED_IN_COURSE: "error",
  NOBODY_IN_COURSE: "error",
  COURSE_NOT_CHOSEN: "error",
  COURSE_NOT_KEPT: "error",
  DRILL_NOT_CHOSEN: "error",
  TAKE_NOT_NAMED: "error",
  TAKE_RUNG_NOT_SAID: "error",
  DECISION_NOT_OF_COURSE: "error",
  EDITION_NOT_COMPARED: "advice",
  TAKE_ID_REUSED: "error",
  TAKE_CHANGED: "error",
} as const;

export const practiceProblem: ReturnType<typeof problemsOf<typeof practiceCodes>> = problemsOf(practiceCodes);
