import { problemsOf } from "../base/index.js";

/** Problems with what is asked of a school's server. */
export const serverCodes = {
  KEY_MISSING: { severity: "error", means: "The request brings no key, and this is not for everybody." },
  KEY_UNKNOWN: { severity: "error", means: "The session or token of the request is not known, or its time is over." },
  ROLE_REFUSED: { severity: "error", means: "Teachers may do this and students may not, or the other way round." },
  STUDENT_PAUSED: {
    severity: "error",
    means: "The student is away, and nothing is taken from them until they are back.",
  },
  NOT_THERE: {
    severity: "error",
    means:
      "There is no such student, class or course, or it is not for the one who asks; the answer does not tell which.",
  },
  PATH_UNKNOWN: { severity: "error", means: "The server has no such address." },
  METHOD_REFUSED: { severity: "error", means: "The address does not take this method of HTTP." },
  HOST_UNKNOWN: { severity: "error", means: "The request names another host than those the server answers for." },
  ORIGIN_FOREIGN: { severity: "error", means: "The request was sent by a page of another site." },
  MEDIA_TYPE_UNKNOWN: { severity: "error", means: "The body of the request is of no kind that is taken there." },
  BODY_TOO_LARGE: { severity: "error", means: "The body of the request is larger than is taken there." },
  BODY_NOT_JSON: { severity: "error", means: "The body of the request must be JSON, and is not." },
  QUERY_REPEATED: { severity: "error", means: "A parameter of the query is said more than once." },
  TOO_MANY_REQUESTS: { severity: "error", means: "Somebody asks more often than the server lets them." },
  TAKE_CHANGED: { severity: "error", means: "A take was sent again under its id, and shows something else." },
  TAKE_NOT_AS_ADDRESSED: { severity: "error", means: "A take says another id or student than its address." },
  INVITATION_USED: { severity: "error", means: "An invitation was used: each lets one person in, once." },
  INVITATION_REVOKED: { severity: "error", means: "An invitation was taken back by a teacher." },
  INVITATION_LATE: { severity: "error", means: "The time of an invitation is over." },
  INVITATION_UNKNOWN: { severity: "error", means: "There is no such invitation, or it was over long ago." },
  NAME_TAKEN: { severity: "error", means: "A name was chosen that somebody has, or that was not invited." },
  NAME_NOT_CHOSEN: { severity: "error", means: "An invitation is for nobody by name, and none was chosen." },
  NAME_NOT_ADDRESSABLE: { severity: "error", means: "A name that no address can hold: one or two dots." },
  CLASS_TAKEN: { severity: "error", means: "There is a class of this name." },
  COURSE_NOT_SERVED: { severity: "error", means: "A class is to take a course that the server was not started with." },
  STUDENT_IN_OTHER_CLASS: {
    severity: "error",
    means: "A student cannot be erased by a teacher who does not teach all their classes.",
  },
  ERASING_NOT_CONFIRMED: { severity: "error", means: "The name of who is to be erased was not said a second time." },
  STANDING_CHANGED: { severity: "error", means: "A student moved since the answer that a change rests on." },
  ANSWER_TOO_SLOW: { severity: "error", means: "The answer took longer than the server waits." },
  SCHOOL_STORE_FAILED: { severity: "error", means: "The store behind the server cannot do what was asked now." },
  SCHOOL_DEFECT: { severity: "error", means: "Something went wrong in the server that is nobody's fault who asks." },
} as const;

export const serverProblem: ReturnType<typeof problemsOf<typeof serverCodes>> = problemsOf(serverCodes);
