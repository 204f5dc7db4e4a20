import { problemsOf } from "../base/index.js";

/** Problems with what is asked of a school's server. */
export const serverCodes = {
  KEY_MISSING: "error",
  KEY_UNKNOWN: "error",
  ROLE_REFUSED: "error",
  STUDENT_PAUSED: "error",
  NOT_THERE: "error",
  PATH_UNKNOWN: "error",
  METHOD_REFUSED: "error",
  HOST_UNKNOWN: "error",
  ORIGIN_FOREIGN: "error",
  MEDIA_TYPE_UNKNOWN: "error",
  BODY_TOO_LARGE: "error",
  BODY_NOT_JSON: "error",
  QUERY_REPEATED: "error",
  TOO_MANY_REQUESTS: "error",
  HEARING_BUSY: "error",
  RECORDING_NOT_HEARD: "error",
  TAKE_NOT_AS_ADDRESSED: "error",
  INVITATION_USED: "error",
  INVITATION_REVOKED: "error",
  INVITATION_LATE: "error",
  INVITATION_UNKNOWN: "error",
  NAME_TAKEN: "error",
  NAME_NOT_CHOSEN: "error",
  NAME_NOT_ADDRESSABLE: "error",
  CLASS_TAKEN: "error",
  COURSE_NOT_SERVED: "error",
  STUDENT_IN_OTHER_CLASS: "error",
  ERASING_NOT_CONFIRMED: "error",
  STANDING_CHANGED: "error",
  ANSWER_TOO_SLOW: "error",
  SCHOOL_STORE_FAILED: "error",
  SCHOOL_DEFECT: "error",
} as const;

export const serverProblem: ReturnType<typeof problemsOf<typeof serverCodes>> = problemsOf(serverCodes);
