import { problemsOf } from "../base/index.js";

/** Problems with what students, teachers and their apps ask for. */
export const practiceCodes = {
  STUDENT_UNKNOWN: { severity: "error", means: "Nobody of this name is enrolled in the store." },
  STUDENT_NAME_LENGTH: { severity: "error", means: "The name of a student is empty or too long." },
  STUDENT_NAME_UNSEEN: {
    severity: "error",
    means: "The name of a student has a character that cannot be seen, or a blank at its beginning or end.",
  },
  NOT_ENROLLED_IN_COURSE: { severity: "error", means: "The student is enrolled, but not in this course." },
  NOBODY_IN_COURSE: { severity: "error", means: "Nobody in the store is enrolled in the course that was named." },
  COURSE_NOT_CHOSEN: { severity: "error", means: "The student is in several courses, and none was named." },
  COURSE_NOT_KEPT: { severity: "error", means: "The store does not have the text of the student's course." },
  DRILL_NOT_CHOSEN: {
    severity: "error",
    means: "None or several of the student's drills are open, and none was named.",
  },
  TAKE_NOT_NAMED: { severity: "error", means: "A take has no id, so it could count twice when it is sent again." },
  TAKE_RUNG_NOT_SAID: {
    severity: "error",
    means: "A take does not say which drill and rung it was played to, or says it by a number.",
  },
  DECISION_NOT_OF_COURSE: {
    severity: "error",
    means: "A decision in a journal names a gate, a rung or needs that its edition of the course does not have.",
  },
  EDITION_NOT_COMPARED: {
    severity: "advice",
    means: "The store does not keep an edition, so the decisions made in it could not be compared with it.",
  },
  TAKE_ID_REUSED: { severity: "error", means: "The id of a take is that of a take counted for another rung." },
} as const;

export const practiceProblem: ReturnType<typeof problemsOf<typeof practiceCodes>> = problemsOf(practiceCodes);
