import { failure, success } from "../base/index.js";
import type { Person } from "../store/index.js";
import { digestOf } from "./access/digestOf.js";
import { type Brought, keyOf } from "./access/keyOf.js";
import { mayAsk, notThere } from "./access/mayAsk.js";
import type { RateLimit } from "./access/rateLimit.js";
import { type Addresses, requireOrigin } from "./access/requireOrigin.js";
import { checkBody, checkQuery } from "./answer/checkers.js";
import { contentAnswer } from "./answer/contentAnswer.js";
import { problemAnswer, type Refusal } from "./answer/problemAnswer.js";
import { serverProblem } from "./codes.js";
import type { Body, School } from "./model.js";
import type { BodyKind } from "./operations/model.js";
import type { OperationId } from "./operations/operationId.js";
import { OPERATIONS } from "./operations/operations.js";
import type { Problem, Result } from "./problem.js";
import { readBody } from "./readBody.js";
import type { Handler } from "./routes/handler.js";
import { sayProblem } from "./say.js";
import type { Seen } from "./watch/watch.js";

/** What all requests to a school share. */
export interface Desk {
  readonly school: School;
  readonly limit: RateLimit;
  readonly addresses: Addresses;
  readonly isSecure: boolean;
}

/** One request for an operation. */
export interface Asked {
  readonly id: OperationId;
  readonly handler: Handler;
  readonly request: Request;
  readonly parameters: Readonly<Record<string, string>>;
  /** Address the request came from. */
  readonly from: string;
  /** Number of the request in the log. */
  readonly number: string;
  readonly note: (of: Partial<Seen>) => void;
}

/** Days after which it is noted anew that somebody was there: a note is a write, and nobody needs the hour. */
const SEEN_AFTER_MS = 86_400_000;

/**
 * Answers a request for an operation: who asks, how often, from where, whether they may, what they say, and then what is answered. What is refused
 * is refused before the body is read.
 */
export async function answerOperation(desk: Desk, asked: Asked): Promise<Response> {
  const { school, isSecure, addresses } = desk;
  const { id, request, parameters, number, note } = asked;
  const operation = OPERATIONS[id];
  const refuse = (problems: readonly Problem[], more: Partial<Refusal> = {}): Response =>
    problemAnswer({ problems, request: number, ...more });
  const now = school.now();
  const at = now.toISOString();
  const brought = keyOf(request.headers);
  const holder = brought && (await school.register.holderOf(digestOf(brought.secret), at));
  const person = holder?.person;
  note(person === undefined ? {} : { role: person.role });
  const wait = desk.limit.wait(person === undefined ? `address ${asked.from}` : `person ${person.name}`, now.getTime());
  if (wait > 0) return refuse([tooMany()], { wait });
  const isChange = operation.method !== "get";
  const origin = requireOrigin(request.headers, { isChange, isSession: brought?.by === "cookie" }, addresses);
  if (!origin.ok) return refuse(origin.problems);
  if (operation.who !== "anyone") {
    if (person === undefined) return refuse([noKey(brought)]);
    const may = await mayAsk(school, person, operation, parameters);
    if (!may.ok) return refuse(may.problems);
  }
  const query = readQuery(request);
  const checked = query.ok ? checkQuery(id, query.value) : query;
  if (!checked.ok) return refuse(checked.problems);
  const body = await bodyFor(request, operation.body);
  if (!body.ok) return refuse(body.problems);
  if (person !== undefined) await markSeen(school, person, now);
  const answer = await asked.handler({
    school,
    ...(person && { person }),
    ...(brought && { digest: digestOf(brought.secret) }),
    parameters,
    query: checked.value,
    body: body.value,
    at,
    ifMatch: request.headers.get("if-match") ?? undefined,
  });
  if (!answer.ok) return refuse(answer.problems.some(isOfNames) ? notThere().problems : answer.problems);
  const ifNoneMatch = request.headers.get("if-none-match") ?? undefined;
  return contentAnswer(operation, answer.value, { ifNoneMatch, isSecure, now });
}

/** Whether a problem is one that looks through the names of a store: it is worded for who keeps the store, and names others. */
function isOfNames({ code }: Problem): boolean {
  return code === "STUDENT_UNKNOWN" || code === "NOT_ENROLLED_IN_COURSE" || code === "COURSE_NOT_CHOSEN";
}

function readQuery(request: Request): Result<Readonly<Record<string, string>>> {
  const found = new Map<string, string>();
  for (const [name, value] of new URL(request.url).searchParams) {
    if (found.has(name)) {
      const message = sayProblem("server-problem.query-repeated", { name });
      const remedy = sayProblem("server-problem.query-repeated-remedy");
      return failure(serverProblem("QUERY_REPEATED", message, {}, remedy));
    }
    found.set(name, value);
  }
  return success(Object.fromEntries(found));
}

async function bodyFor(
  request: Request,
  kinds: Readonly<Record<string, BodyKind>> | undefined,
): Promise<Result<Body | undefined>> {
  if (kinds === undefined) return success(undefined);
  const read = await readBody(request, kinds);
  if (!read.ok) return read;
  const { body, kind } = read.value;
  if (!("value" in body)) return success(body);
  const checked = checkBody(kind.schema, body.value);
  return checked.ok ? success({ ...body, value: checked.value }) : checked;
}

async function markSeen({ register }: School, person: Person, now: Date): Promise<void> {
  const isDue = now.getTime() - Date.parse(person.seen) > SEEN_AFTER_MS || person.warned !== undefined;
  if (isDue) await register.markSeen(person.name, now.toISOString());
}

function noKey(brought: Brought | undefined): Problem {
  if (brought === undefined) {
    const message = sayProblem("server-problem.key-missing");
    return serverProblem("KEY_MISSING", message, {}, sayProblem("server-problem.key-missing-remedy"));
  }
  const message = sayProblem("server-problem.key-unknown");
  return serverProblem("KEY_UNKNOWN", message, {}, sayProblem("server-problem.key-unknown-remedy"));
}

function tooMany(): Problem {
  const message = sayProblem("server-problem.too-many-requests");
  return serverProblem("TOO_MANY_REQUESTS", message, {}, sayProblem("server-problem.too-many-requests-remedy"));
}
