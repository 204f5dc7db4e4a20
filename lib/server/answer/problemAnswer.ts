import type { Problem as AnyProblem } from "../../base/index.js";
import { isStoreProblem } from "../../store/index.js";
import { serverCodes, serverProblem } from "../codes.js";
import type { ServerCode } from "../problem.js";
import { sayProblem } from "../say.js";

/** Statuses of codes; 422 of those that are not here. */
const STATUS = {
  REQUEST_NOT_READ: 400,
  BODY_NOT_JSON: 400,
  QUERY_REPEATED: 400,
  KEY_MISSING: 401,
  KEY_UNKNOWN: 401,
  ROLE_REFUSED: 403,
  STUDENT_PAUSED: 403,
  ORIGIN_FOREIGN: 403,
  NOT_THERE: 404,
  PATH_UNKNOWN: 404,
  METHOD_REFUSED: 405,
  REQUEST_LATE: 408,
  CLASS_TAKEN: 409,
  NAME_TAKEN: 409,
  STUDENT_IN_OTHER_CLASS: 409,
  TAKE_CHANGED: 409,
  TAKE_ID_REUSED: 409,
  INVITATION_USED: 410,
  INVITATION_REVOKED: 410,
  INVITATION_LATE: 410,
  INVITATION_UNKNOWN: 410,
  STANDING_CHANGED: 412,
  BODY_TOO_LARGE: 413,
  MEDIA_TYPE_UNKNOWN: 415,
  HOST_UNKNOWN: 421,
  TOO_MANY_REQUESTS: 429,
  HEARING_BUSY: 429,
  SCHOOL_DEFECT: 500,
  SCHOOL_STORE_FAILED: 503,
  EDITION_BEHIND: 503,
  ANSWER_TOO_SLOW: 504,
} as const;
const STATUSES: Readonly<Partial<Record<ServerCode, number>>> = STATUS;

/** What only opening a school is refused with. */
const OPENING: readonly OpeningCode[] = ["HEARING_QUEUE_DRIVER_MISSING", "HEARING_QUEUE_UNUSABLE"];
type OpeningCode = "HEARING_QUEUE_DRIVER_MISSING" | "HEARING_QUEUE_UNUSABLE";

/** The codes that this room answers with by itself, or has a status for; others come from what a body or a query says. */
export type AnsweredCode = Exclude<keyof typeof serverCodes, OpeningCode> | keyof typeof STATUS;

/** All of them, in the order of their statuses. */
export const ANSWERED_CODES: readonly AnsweredCode[] = [
  ...new Set([...keysOf(STATUS), ...keysOf(serverCodes).filter(isAnswered)]),
].sort((a, b) => statusOf(a) - statusOf(b));

function isAnswered(code: keyof typeof serverCodes): code is Exclude<typeof code, OpeningCode> {
  return !OPENING.includes(code as OpeningCode);
}

/** The status with which a problem is answered. */
export function statusOf(code: string): number {
  return (Object.hasOwn(STATUSES, code) ? STATUSES[code as ServerCode] : undefined) ?? 422;
}

function keysOf<T extends object>(of: T): readonly (keyof T)[] {
  return Object.keys(of) as (keyof T)[];
}

/** Seconds after which a store that could not is asked again, and a recording is sent again that there was no place for; our choices. */
const STORE_AGAIN = 5;
const HEARING_AGAIN = 10;

/** What problem details are made from. */
export interface Refusal {
  readonly problems: readonly AnyProblem[];
  /** Number of the request in the log; absent for what never became one. */
  readonly request?: string;
  /** Seconds to wait, where that is known. */
  readonly wait?: number;
}

/** Problems as problem details (RFC 9457), with code, place and remedy of each. */
export function problemAnswer({ problems, request, wait }: Refusal): Response {
  const told = problems.filter(({ severity }) => severity === "error").map(toldOutside);
  const [first] = told;
  const status = statusOf(first!.code);
  const pause = wait ?? (status === 503 ? STORE_AGAIN : status === 429 ? HEARING_AGAIN : undefined);
  const detail = first!.remedy === undefined ? first!.message : `${first!.message}; ${first!.remedy}`;
  const type = `https://leeway.example/problems/${first!.code}`;
  return new Response(JSON.stringify({ type, status, detail, code: first!.code, problems: told, request }), {
    status,
    headers: {
      "content-type": "application/problem+json",
      "cache-control": "no-store",
      ...(status === 401 ? { "www-authenticate": 'Bearer realm="school"' } : {}),
      ...(pause === undefined ? {} : { "retry-after": `${pause}` }),
    },
  });
}

/** A problem as people outside are told it, without what only a program reads. */
export function toldOutside({ code, severity, message, where, remedy }: AnyProblem): AnyProblem {
  return { code, severity, message, where, ...(remedy === undefined ? {} : { remedy }) };
}

/** Problems for an error that was thrown. What a store says names its place, which is nobody's business outside. */
export function problemsFor(error: unknown, request: string): readonly AnyProblem[] {
  if (isStoreProblem(error)) {
    const message = sayProblem("server-problem.school-store-failed");
    const remedy = sayProblem("server-problem.school-store-failed-remedy");
    return [serverProblem("SCHOOL_STORE_FAILED", message, {}, remedy)];
  }
  const message = sayProblem("server-problem.school-defect");
  const remedy = sayProblem("server-problem.school-defect-remedy", { request });
  return [serverProblem("SCHOOL_DEFECT", message, {}, remedy)];
}
