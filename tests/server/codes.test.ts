import { connect } from "node:net";
import { PassThrough } from "node:stream";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { takeOver } from "../../lib/practice/index.js";
import { answerUnread } from "../../lib/server/answer/answerUnread.js";
import { ANSWERED_CODES, type AnsweredCode, statusOf } from "../../lib/server/answer/problemAnswer.js";
import { openHearing } from "../../lib/server/hearing/openHearing.js";
import { schoolDocument } from "../../lib/server/index.js";
import type { Store } from "../../lib/store/index.js";
import { playTo, quay } from "../practice/quay.js";
import { askAs, judgedFetch, type Served, type ServedOptions, servedSchool } from "./served.js";

const TERN = "/api/students/tern/courses/quay";
const JSON_TYPE = { "content-type": "application/json" };
const many = { limits: { perMinute: 1e6 } } as const;

/** A school, asked by a name or by nobody. */
interface Asking {
  readonly school: Served;
  ask(who: "tern" | "knot" | "avocet" | undefined, path: string, init?: Asked): Promise<Response>;
}
type Asked = Omit<RequestInit, "headers" | "body"> & {
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: BodyInit | object;
};

/** A school with teacher avocet and students tern and knot. */
async function asking(options: ServedOptions = many): Promise<Asking> {
  const school = await servedSchool(options);
  const tokens = new Map<string, string>();
  for (const [name, role] of [
    ["avocet", "teacher"],
    ["tern", "student"],
    ["knot", "student"],
  ] as const)
    tokens.set(name, await school.bring(name, { role, className: "monday" }));
  return {
    school,
    ask: (who, path, { headers, body, ...init } = {}) => {
      const isJson = body !== undefined && Object.getPrototypeOf(body) === Object.prototype;
      const key = who === undefined ? {} : { authorization: `Bearer ${tokens.get(who)}` };
      const all = { ...key, ...(isJson ? JSON_TYPE : {}), ...headers };
      const sent = body === undefined ? {} : { body: isJson ? JSON.stringify(body) : (body as BodyInit) };
      return judgedFetch(new Request(`${school.address}${path}`, { ...init, headers: all, ...sent }));
    },
  };
}

let all: Asking;
beforeAll(async () => {
  all = await asking();
});
afterAll(() => all.school.close());

/** In a school of its own, which is closed then. */
async function apart(options: ServedOptions, work: (of: Asking) => Promise<Response>): Promise<Response> {
  const own = await asking(options);
  try {
    return await work(own);
  } finally {
    await own.school.close();
  }
}

/** A store in which these methods of the register fail so, once people are in. */
const failing = (fault: () => Promise<never>): ServedOptions => ({
  limits: { perMinute: 1e6, patience: 40 },
  wrap: (store): Store => ({ ...store, register: { ...store.register!, hasTeacher: fault } }),
});

/** A plan while somebody else erases the student between two looks of the request: all of them, or what they have in this course. */
function erasedMeanwhile(erased: "all" | "one course"): Promise<Response> {
  let looks = Number.NEGATIVE_INFINITY;
  const wrap = (store: Store): Store => ({
    ...store,
    open: async (key) => (looks++ > 0 ? undefined : store.open(key)),
    async *journals(of) {
      if (erased === "one course")
        for await (const each of store.journals(of)) yield { ...each, curriculum: "harbour" };
    },
  });
  return apart({ ...many, wrap }, ({ ask }) => {
    looks = 0;
    return ask("tern", `${TERN}/plan`);
  });
}

async function invitation(name?: string): Promise<{ readonly secret: string; readonly id: string }> {
  const path = "/api/classes/monday/invitations";
  const made = await all.ask("avocet", path, { method: "POST", body: { ...(name && { name }), days: 2 } });
  return (await made.json()) as { readonly secret: string; readonly id: string };
}
const show = (secret: string): Promise<Response> =>
  all.ask(undefined, "/api/invitations/show", { method: "POST", body: { secret } });
const accept = (secret: string, name?: string): Promise<Response> =>
  all.ask(undefined, "/api/invitations/accept", {
    method: "POST",
    body: { secret, as: "token", ...(name && { name }) },
  });

const rungOf = (i: number): string => settingsText(rungs(quay().drills[0]!).at(i).settings);
const take = (id: string, { how = "in time" as "in time" | "late", i = 0 } = {}): object =>
  playTo(quay(), { id, drill: "steady", rung: rungOf(i), how });
const submit = (of: Asking, id: string, body: object): Promise<Response> =>
  of.ask("tern", `${TERN}/takes/${id}`, { method: "PUT", body });
const recording = (of: Asking): Promise<Response> =>
  of.ask("tern", `${TERN}/takes/heard?${new URLSearchParams({ drill: "steady", rung: rungOf(0) })}`, {
    method: "PUT",
    headers: { "content-type": "audio/wav" },
    body: new Uint8Array(100),
  });

/** How each code is answered, over HTTP. A new code without a row does not compile. */
const EXCHANGES: Readonly<Record<AnsweredCode, () => Promise<Response>>> = {
  REQUEST_NOT_READ: () => unread("GET / HTTP/9.9\r\n\r\n"),
  REQUEST_LATE: late,
  KEY_MISSING: () => all.ask(undefined, "/api/me"),
  KEY_UNKNOWN: () => all.ask(undefined, "/api/me", { headers: { authorization: "Bearer none-such" } }),
  ROLE_REFUSED: () => all.ask("tern", "/metrics"),
  STUDENT_PAUSED: async () => {
    const pause = (paused: boolean) =>
      all.ask("avocet", "/api/students/knot/pause", { method: "PUT", body: { paused } });
    await pause(true);
    const answer = await all.ask("knot", "/api/courses");
    await pause(false);
    return answer;
  },
  NOT_THERE: () => all.ask("knot", `${TERN}/standing`),
  PATH_UNKNOWN: () => all.ask("tern", "/api/nothing"),
  METHOD_REFUSED: () => all.ask("tern", "/api/tokens", { method: "PATCH" }),
  HOST_UNKNOWN: () => askAs(all.school.address, "gull.example", { id: "me", token: "x" }),
  ORIGIN_FOREIGN: () => all.ask("tern", "/api/me", { headers: { origin: "https://gull.example" } }),
  MEDIA_TYPE_UNKNOWN: () =>
    all.ask(undefined, "/api/invitations/show", {
      method: "POST",
      headers: { "content-type": "text/plain" },
      body: "x",
    }),
  BODY_TOO_LARGE: () =>
    all.ask(undefined, "/api/invitations/show", {
      method: "POST",
      headers: JSON_TYPE,
      body: `"${"x".repeat(30_000)}"`,
    }),
  BODY_NOT_JSON: () => all.ask(undefined, "/api/invitations/show", { method: "POST", headers: JSON_TYPE, body: "{" }),
  QUERY_REPEATED: () => all.ask("tern", "/api/me?a=1&a=2"),
  TOO_MANY_REQUESTS: async () => {
    const small = await servedSchool({ limits: { perMinute: 1 } });
    await fetch(`${small.address}/health`);
    const answer = await judgedFetch(new Request(`${small.address}/health`));
    await small.close();
    return answer;
  },
  HEARING_BUSY: () => apart({ ...many, hearing: openHearing({ threads: 0, waiting: 0 }) }, recording),
  // Its thread is a file that only the build has: as one that is broken.
  RECORDING_NOT_HEARD: () => apart({ ...many, hearing: openHearing({ threads: 1 }) }, recording),
  TAKE_NOT_AS_ADDRESSED: () => submit(all, "one", take("another")),
  TAKE_CHANGED: async () => {
    await submit(all, "counted", take("counted"));
    return submit(all, "counted", take("counted", { how: "late" }));
  },
  TAKE_ID_REUSED: async () => {
    await submit(all, "counted", take("counted"));
    return submit(all, "counted", take("counted", { i: 1 }));
  },
  INVITATION_USED: async () => {
    const { secret } = await invitation("ruff");
    await accept(secret);
    return accept(secret);
  },
  INVITATION_REVOKED: async () => {
    const { secret, id } = await invitation();
    await all.ask("avocet", `/api/classes/monday/invitations/${id}`, { method: "DELETE" });
    return show(secret);
  },
  INVITATION_LATE: async () => {
    const { secret } = await invitation();
    const before = all.school.clock;
    all.school.clock = "2026-09-05T08:00:00.000Z";
    const answer = await show(secret);
    all.school.clock = before;
    return answer;
  },
  INVITATION_UNKNOWN: () => show("nobody-made-this-one"),
  NAME_TAKEN: async () => accept((await invitation()).secret, "tern"),
  NAME_NOT_CHOSEN: async () => accept((await invitation()).secret),
  NAME_NOT_ADDRESSABLE: async () => accept((await invitation()).secret, ".."),
  CLASS_TAKEN: () => all.ask("avocet", "/api/classes", { method: "POST", body: { name: "monday", course: "quay" } }),
  COURSE_NOT_SERVED: () =>
    all.ask("avocet", "/api/classes", { method: "POST", body: { name: "w", course: "harbour" } }),
  STUDENT_IN_OTHER_CLASS: async () => {
    await all.school.bring("knot", { role: "student", className: "friday" });
    return all.ask("avocet", "/api/students/knot?confirm=knot", { method: "DELETE" });
  },
  ERASING_NOT_CONFIRMED: () => all.ask("tern", "/api/students/tern", { method: "DELETE" }),
  STANDING_CHANGED: () => all.ask("avocet", `${TERN}/edition`, { method: "POST", headers: { "if-match": '"other"' } }),
  EDITION_BEHIND: () =>
    apart(many, async ({ school, ask }) => {
      // Another process takes the student to an edition of which this one has no text.
      const at = "2026-09-01T09:00:00Z";
      await takeOver(school.store, "tern", { course: quay({ edition: "1.1.0" }), before: school.course, at });
      return ask("tern", `${TERN}/plan`);
    }),
  SCHOOL_STORE_FAILED: () =>
    apart(
      failing(() =>
        Promise.reject(Object.assign(new Error("x"), { problem: { code: "STORE_BUSY", message: "/home/school" } })),
      ),
      ({ ask }) => ask(undefined, "/health"),
    ),
  SCHOOL_DEFECT: () =>
    apart(
      failing(() => Promise.reject(new Error("x"))),
      ({ ask }) => ask(undefined, "/health"),
    ),
  ANSWER_TOO_SLOW: () =>
    apart(
      failing(() => new Promise(() => undefined)),
      ({ ask }) => ask(undefined, "/health"),
    ),
};

test.each(["all", "one course"] as const)(
  "a student whom somebody else erases while a request is answered (%s) is not there, and nobody else is named",
  async (erased) => {
    const told = (await (await erasedMeanwhile(erased)).json()) as object;
    const missing = (await (await all.ask("knot", `${TERN}/standing`)).json()) as object;
    expect({ ...told, request: "" }).toEqual({ ...missing, request: "" });
    expect(JSON.stringify(told)).not.toMatch(/tern|knot|harbour/);
  },
);

describe("the codes of a school", () => {
  test.each(ANSWERED_CODES)(
    "%s is answered as problem details, with its status, and as the document says it",
    async (code) => {
      const answer = await EXCHANGES[code]();
      expect(answer.headers.get("content-type")).toBe("application/problem+json");
      const told = (await answer.json()) as { readonly code: string; readonly status: number; readonly type: string };
      expect(told).toMatchObject({ code, status: statusOf(code), type: `https://leeway.example/problems/${code}` });
      expect(answer.status).toBe(statusOf(code));
      expect(documented().get(code)).toEqual([answer.status]);
    },
  );

  test("are those of the document, no more and no fewer", () => {
    expect([...documented().keys()].sort()).toEqual([...ANSWERED_CODES].sort());
    // The rest of the four: what a code means, in seven languages and on the page of problems, by `tests/parity.test.ts` and `tests/pages/problems.test.ts`.
  });
});

/** Code -> the statuses at which the document has it. */
function documented(): ReadonlyMap<string, readonly number[]> {
  const { components } = schoolDocument("0") as unknown as {
    readonly components: { readonly schemas: Record<string, { readonly allOf?: readonly [unknown, Refusal] }> };
  };
  const found = new Map<string, number[]>();
  for (const [name, { allOf }] of Object.entries(components.schemas)) {
    const status = Number(/^Problem(\d+)$/.exec(name)?.[1] ?? Number.NaN);
    if (Number.isNaN(status)) continue;
    const { code } = allOf![1].properties;
    for (const each of (code.anyOf?.[0] ?? code).enum!) found.set(each, [...(found.get(each) ?? []), status]);
  }
  return found;
}
interface Refusal {
  readonly properties: {
    readonly code: {
      readonly enum?: readonly string[];
      readonly anyOf?: readonly { readonly enum?: readonly string[] }[];
    };
  };
}

/** What is answered on a connection whose request Node has waited for long enough (its code, Node 20). */
async function late(): Promise<Response> {
  const line = new PassThrough();
  await answerUnread(Object.assign(new Error("x"), { code: "ERR_HTTP_REQUEST_TIMEOUT" }), line);
  return answerIn((line.read() as Buffer).toString());
}

function answerIn(text: string): Response {
  const [head = "", body = ""] = text.split("\r\n\r\n");
  const [first = "", ...lines] = head.split("\r\n");
  const headers = lines.map((line) => line.split(": ") as [string, string]);
  return new Response(body, { status: Number(first.split(" ")[1]), headers });
}

/** What is answered to bytes that are no request. */
function unread(bytes: string): Promise<Response> {
  return new Promise((resolve, reject) => {
    const socket = connect(Number(new URL(all.school.address).port), "127.0.0.1", () => socket.write(bytes));
    let text = "";
    socket.on("data", (piece) => {
      text += piece.toString();
    });
    socket.once("error", reject).once("end", () => resolve(answerIn(text)));
  });
}

test.each([
  ["no HTTP", "quack\r\n\r\n"],
  ["a method that is none", "FLY / HTTP/1.1\r\nHost: x\r\n\r\n"],
  ["no host", "GET /api/me HTTP/1.1\r\nConnection: close\r\n\r\n"],
  ["no host, in HTTP/1.0", "GET /api/me HTTP/1.0\r\n\r\n"],
  ["a host that is none", "GET /api/me HTTP/1.1\r\nHost: a b/@c\r\nConnection: close\r\n\r\n"],
  ["an address that is none", "GET http://[x/ HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n"],
  ["two lengths", "POST /api/tokens HTTP/1.1\r\nHost: x\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n"],
  [
    "a length and pieces",
    "POST /api/tokens HTTP/1.1\r\nHost: x\r\nContent-Length: 1\r\nTransfer-Encoding: chunked\r\n\r\n",
  ],
  ["headers that are too long", `GET / HTTP/1.1\r\nHost: x\r\nX: ${"y".repeat(40_000)}\r\n\r\n`],
  ["a header that is none", "GET / HTTP/1.1\r\nHost: x\r\na b: c\r\n\r\n"],
])("a request with %s is refused in the same shape", async (_, bytes) => {
  const answer = await unread(bytes);
  const told = (await answer.json()) as { readonly code: string };
  expect([answer.status, told.code]).toEqual([400, "REQUEST_NOT_READ"]);
  expect(answer.headers.get("content-type")).toBe("application/problem+json");
  expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
});

test("an expectation that nobody knows is left unheard", async () => {
  const { host } = new URL(all.school.address);
  const answer = await unread(
    `GET /health HTTP/1.1\r\nHost: ${host}\r\nExpect: the-impossible\r\nConnection: close\r\n\r\n`,
  );
  expect([answer.status, answer.headers.get("content-type")]).toEqual([200, "application/json"]);
});
