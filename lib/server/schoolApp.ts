import { Hono } from "hono";
import { success } from "../base/index.js";
import { rateLimit } from "./access/rateLimit.js";
import { type Addresses, requireHost } from "./access/requireOrigin.js";
import { answerFile, type FindFile } from "./answer/answerFile.js";
import { problemAnswer, problemsFor } from "./answer/problemAnswer.js";
import { setStrict } from "./answer/setStrict.js";
import { answerOperation, type Desk } from "./answerOperation.js";
import { serverProblem } from "./codes.js";
import type { School } from "./model.js";
import { schoolDocument } from "./openapi/schoolDocument.js";
import type { OperationId } from "./operations/operationId.js";
import { OPERATIONS } from "./operations/operations.js";
import type { Problem } from "./problem.js";
import { classes } from "./routes/classes.js";
import { courses } from "./routes/courses.js";
import type { Handlers } from "./routes/handler.js";
import { people } from "./routes/people.js";
import { students } from "./routes/students.js";
import { takes } from "./routes/takes.js";
import { sayProblem } from "./say.js";
import { openWatch, type Seen, type Watch } from "./watch/watch.js";

export interface AppOptions {
  readonly addresses: Addresses;
  /** Whether people reach the server by HTTPS. */
  readonly isSecure: boolean;
  /** Version of leeway. */
  readonly version: string;
  readonly files: FindFile;
  readonly log: (seen: Seen) => void;
}

/** A school as a function from requests to answers. `from` is the address a request came from. It never rejects. */
export type SchoolApp = (request: Request, from: string) => Promise<Response>;

/** One request on its way. */
interface Way {
  readonly from: string;
  readonly number: string;
  readonly note: (of: Partial<Seen>) => void;
}

/** Opens a school for requests. */
export function schoolApp(school: School, options: AppOptions): SchoolApp {
  const { addresses, isSecure, log } = options;
  const watch = openWatch(log);
  const limit = rateLimit(school.limits.perMinute);
  const app = routesOf({ school, limit, addresses, isSecure }, { ...options, watch });
  return async (request, from) => {
    const began = performance.now();
    const number = school.secret().slice(0, 10);
    const noted: Partial<Seen>[] = [];
    const note = (of: Partial<Seen>): void => void noted.push(of);
    const { patience, hearingPatience } = school.limits;
    const answered = await withinPatience(isSound(request) ? hearingPatience : patience, number, async () => {
      const host = requireHost(request.headers, addresses);
      if (!host.ok) return problemAnswer({ problems: host.problems, request: number });
      return isPreflight(request) ? new Response(null, { status: 204 }) : app.fetch(request, { from, number, note });
    }).catch((error: unknown) => {
      note({ error: error instanceof Error ? error.constructor.name : typeof error });
      return problemAnswer({ problems: problemsFor(error, number), request: number });
    });
    setStrict(answered.headers);
    letIn(answered.headers, request.headers.get("origin"), addresses);
    const ms = performance.now() - began;
    const at = school.now().toISOString();
    watch.add({ at, request: number, status: answered.status, ms, ...Object.assign({}, ...noted) });
    return answered;
  };
}

function routesOf(
  desk: Desk,
  { version, files, watch }: AppOptions & { readonly watch: Watch },
): Hono<{ Bindings: Way }> {
  const document = JSON.stringify(schoolDocument(version));
  const handlers: Handlers<OperationId> = {
    health: async () => {
      await desk.school.register.hasTeacher();
      return success({ content: { status: "up" } });
    },
    document: async () => success({ content: document }),
    metrics: async () => success({ content: watch.metrics() }),
    ...people,
    ...courses,
    ...classes,
    ...students,
    ...takes,
  };
  const app = new Hono<{ Bindings: Way }>();
  const methods = new Map<string, string[]>();
  for (const id of Object.keys(OPERATIONS) as OperationId[]) {
    const path = OPERATIONS[id].path.replaceAll(/\{(\w+)\}/g, ":$1");
    const method = OPERATIONS[id].method.toUpperCase();
    methods.set(path, [...(methods.get(path) ?? []), method]);
    app.on(method, path, ({ req, env }) => {
      env.note({ operation: id });
      return answerOperation(desk, { id, handler: handlers[id], request: req.raw, parameters: req.param(), ...env });
    });
  }
  for (const [path, allowed] of methods)
    app.all(path, ({ env }) => {
      const answer = problemAnswer({ problems: [methodRefused(allowed)], request: env.number });
      answer.headers.set("allow", allowed.join(", "));
      return answer;
    });
  app.notFound(async ({ req, env }) => {
    const file = ["GET", "HEAD"].includes(req.method) ? await files(new URL(req.url).pathname) : undefined;
    return file === undefined
      ? problemAnswer({ problems: [pathUnknown()], request: env.number })
      : answerFile(file, req.raw);
  });
  app.onError((error) => {
    throw error;
  });
  return app;
}

/** Answers in time, or says that it took too long; the work itself goes on, and does no harm twice. */
async function withinPatience(
  ms: number,
  request: string,
  work: () => Response | Promise<Response>,
): Promise<Response> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<Response>((resolve) => {
    timer = setTimeout(() => {
      const message = sayProblem("server-problem.answer-too-slow");
      const remedy = sayProblem("server-problem.answer-too-slow-remedy");
      resolve(problemAnswer({ problems: [serverProblem("ANSWER_TOO_SLOW", message, {}, remedy)], request }));
    }, ms);
  });
  try {
    return await Promise.race([(async () => work())(), late]);
  } finally {
    clearTimeout(timer);
  }
}

/** Whether a request says that it brings a recording. */
function isSound({ headers }: Request): boolean {
  return /^audio\/(?!midi)/i.test(headers.get("content-type") ?? "");
}

function isPreflight({ method, headers }: Request): boolean {
  return method === "OPTIONS" && headers.has("access-control-request-method");
}

/** Lets the scripts of a site that is let in read the answer; never with a cookie. */
function letIn(headers: Headers, origin: string | null, { allowed }: Addresses): void {
  if (origin === null || !allowed.has(origin)) return;
  headers.set("access-control-allow-origin", origin);
  headers.set("access-control-allow-headers", "Authorization, Content-Type, If-Match, If-None-Match");
  headers.set("access-control-allow-methods", "GET, POST, PUT, DELETE");
  headers.set("access-control-expose-headers", "ETag, Retry-After");
  headers.set("cross-origin-resource-policy", "cross-origin");
}

function methodRefused(methods: readonly string[]): Problem {
  const message = sayProblem("server-problem.method-refused", { methods });
  return serverProblem("METHOD_REFUSED", message, {}, sayProblem("server-problem.method-refused-remedy"));
}

function pathUnknown(): Problem {
  const message = sayProblem("server-problem.path-unknown");
  return serverProblem("PATH_UNKNOWN", message, {}, sayProblem("server-problem.path-unknown-remedy"));
}
