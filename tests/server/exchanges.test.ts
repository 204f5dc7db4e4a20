import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { forgetUnseen, schoolDocument } from "../../lib/server/index.js";
import type { OperationId } from "../../lib/server/operations/operationId.js";
import { OPERATIONS } from "../../lib/server/operations/operations.js";
import { eventsOf, type Store } from "../../lib/store/index.js";
import { playTo } from "../practice/quay.js";
import { askAs, exchanges, judgedFetch, type Served, servedSchool } from "./served.js";

const IDS = Object.keys(OPERATIONS) as OperationId[];
const AT_TERN = { student: "tern", course: "quay" };
let school: Served;
let teacher: ReturnType<Served["client"]>;
let tern: ReturnType<Served["client"]>;
let teachersToken = "";

beforeAll(async () => {
  school = await servedSchool({ limits: { perMinute: 1e6 } });
  teachersToken = await school.bring("avocet", { role: "teacher", className: "monday" });
  teacher = school.client(teachersToken);
  tern = school.client(await school.bring("tern", { role: "student", className: "monday" }));
});
afterAll(() => school.close());

const rungOf = (i: number): string => settingsText(rungs(school.course.drills[0]!).at(i).settings);
const take = (id: string, how: "in time" | "late" | "nothing" = "in time", i = 0) =>
  playTo(school.course, { id, drill: "steady", rung: rungOf(i), how });
const submit = (id: string, body: object) =>
  tern.PUT("/api/students/{student}/courses/{course}/takes/{take}", {
    params: { path: { ...AT_TERN, take: id } },
    body: body as never,
  });

/** Asks an operation about what is not there or as it comes, with headers and a body of one's own. */
function raw(
  on: string,
  id: OperationId,
  init: RequestInit & { readonly at?: Record<string, string>; readonly query?: string } = {},
) {
  const { method, path } = OPERATIONS[id];
  const names: Record<string, string> = {
    ...AT_TERN,
    class: "monday",
    edition: "1",
    take: "t",
    token: "x",
    invitation: "x",
  };
  const place = path.replaceAll(/\{(\w+)\}/g, (_, name: string) => init.at?.[name] ?? names[name]!);
  return judgedFetch(
    new Request(`${on}${place}${init.query ?? ""}`, {
      method: method.toUpperCase(),
      ...init,
      headers: { authorization: `Bearer ${teachersToken}`, ...(init.headers as Record<string, string>) },
    }),
  );
}

describe("a school over HTTP", () => {
  test("shows an invitation with the consent note before it is used, and uses it once", async () => {
    const made = await teacher.POST("/api/classes/{class}/invitations", {
      params: { path: { class: "monday" } },
      body: { name: "plover", days: 3 },
    });
    const { secret, link } = made.data!;
    expect(link).toContain(`#/join/${secret}`);
    expect(secret).toMatch(/^[\w-]{22}$/);
    const nobody = school.client();
    const shown = await nobody.POST("/api/invitations/show", { body: { secret } });
    expect(shown.data).toMatchObject({ class: "monday", role: "student", name: "plover", course: "On the quay" });
    expect(shown.data!.consent).toContain("Kept:");
    const pending = await teacher.GET("/api/classes/{class}/invitations", { params: { path: { class: "monday" } } });
    expect(JSON.stringify(pending.data)).not.toContain(secret);
    expect(pending.data!.items).toMatchObject([{ name: "plover" }]);
    const came = await nobody.POST("/api/invitations/accept", { body: { secret, as: "session" } });
    expect(came.response.headers.get("set-cookie")).toMatch(
      /^leeway=[\w-]{22}; Path=\/; Max-Age=\d+; HttpOnly; SameSite=Strict$/,
    );
    expect(came.data).not.toHaveProperty("token");
    expect((await nobody.POST("/api/invitations/accept", { body: { secret, as: "session" } })).error).toMatchObject({
      code: "INVITATION_USED",
      status: 410,
    });
    const again = await nobody.POST("/api/invitations/show", { body: { secret } });
    expect(again.error).toMatchObject({ code: "INVITATION_USED", status: 410 });
    const other = await nobody.POST("/api/invitations/show", { body: { secret: `${secret}x` } });
    expect(other.error).toMatchObject({ code: "INVITATION_UNKNOWN", status: 410 });
  });

  test("says of an invitation that its time is over, for a term, and then that there is none", async () => {
    const own = await servedSchool();
    const avocet = own.client(await own.bring("avocet", { role: "teacher", className: "monday" }));
    const path = { class: "monday" };
    const { data } = await avocet.POST("/api/classes/{class}/invitations", { params: { path }, body: { days: 2 } });
    const body = { secret: data!.secret };
    const codes: string[] = [];
    for (const clock of ["2026-09-02T08:00:00Z", "2026-09-04T08:00:00Z", "2027-02-01T08:00:00Z"]) {
      own.clock = clock;
      // Somebody is there, so that the school is known to go on.
      await own.bring("ruff", { role: "student", className: "monday" });
      await forgetUnseen(own.school);
      const { error } = await own.client().POST("/api/invitations/show", { body });
      codes.push(error?.code ?? "valid");
    }
    await own.close();
    expect(codes).toEqual(["valid", "INVITATION_LATE", "INVITATION_UNKNOWN"]);
  });

  test("takes an invitation back", async () => {
    const made = await teacher.POST("/api/classes/{class}/invitations", {
      params: { path: { class: "monday" } },
      body: { days: 1 },
    });
    const path = { class: "monday", invitation: made.data!.id };
    expect(
      (await teacher.DELETE("/api/classes/{class}/invitations/{invitation}", { params: { path } })).response.status,
    ).toBe(204);
    const { secret } = made.data!;
    const used = await school.client().POST("/api/invitations/accept", { body: { secret, as: "token", name: "ruff" } });
    expect(used.error).toMatchObject({ code: "INVITATION_REVOKED" });
    const twice = await teacher.DELETE("/api/classes/{class}/invitations/{invitation}", { params: { path } });
    expect(twice.response.status).toBe(404);
  });

  test("gives nobody a name that is taken, missing, unseen, or that no address holds", async () => {
    const { data } = await teacher.POST("/api/classes/{class}/invitations", {
      params: { path: { class: "monday" } },
      body: { days: 1 },
    });
    const codes: unknown[] = [];
    for (const name of ["tern", undefined, "..", "a\u202eb", ""]) {
      const body = { secret: data!.secret, as: "token" as const, ...(name === undefined ? {} : { name }) };
      const { error } = await school.client().POST("/api/invitations/accept", { body });
      codes.push(error!.code);
    }
    expect(codes).toEqual([
      "NAME_TAKEN",
      "NAME_NOT_CHOSEN",
      "NAME_NOT_ADDRESSABLE",
      "STUDENT_NAME_UNSEEN",
      "TEXT_LENGTH",
    ]);
  });

  test("answers the same request with the same answer, decision included, and counts it once", async () => {
    const answers: unknown[] = [];
    for (const id of ["t1", "t2", "t1", "t2"]) answers.push((await submit(id, take(id))).data);
    expect(answers.slice(2)).toEqual(answers.slice(0, 2));
    expect(answers[1]).toMatchObject({ take: "t2", decision: { what: "advance", from: rungOf(0), to: rungOf(1) } });
    const events = await eventsOf(school.store, { student: "tern", curriculum: "quay" });
    expect(events.filter(({ kind }) => kind === "take assessed")).toHaveLength(2);
    // Another playing under the id of a counted take is refused, and nothing is written.
    expect((await submit("t1", take("t1", "late"))).error).toMatchObject({ code: "TAKE_CHANGED", status: 409 });
    expect((await submit("t1", take("t1", "in time", 1))).error).toMatchObject({ code: "TAKE_ID_REUSED", status: 409 });
    expect(await eventsOf(school.store, { student: "tern", curriculum: "quay" })).toEqual(events);
  });

  test("refuses takes with every problem, its place and its remedy", async () => {
    expect((await submit("t9", { ...take("t8"), student: "tern" })).error).toMatchObject({
      code: "TAKE_NOT_AS_ADDRESSED",
      problems: [{ where: { pointer: "/id" } }],
    });
    const { error } = await submit("t9", { onsets: [0.1], rung: "3" });
    expect(error).toMatchObject({ status: 422, type: "https://leeway.example/problems/TAKE_RUNG_NOT_SAID" });
    expect(error!.problems.map(({ where }) => where.pointer)).toEqual(["/drill", "/rung"]);
    expect(error!.problems.every(({ remedy }) => remedy !== undefined)).toBe(true);
    // Nested deeper than any take, and keys of prototypes.
    const deep = `{"onsets":${"[".repeat(100_000)}${"]".repeat(100_000)}}`;
    for (const body of [deep, '{"onsets":[],"__proto__":{"id":"x"}}', '{"onsets":[],"constructor":{}}'])
      expect(
        (await raw(school.address, "submit", { body, headers: { "content-type": "application/json" } })).status,
      ).toBe(422);
    expect({}).not.toHaveProperty("id");
  });

  test("reads a take from a MIDI file", async () => {
    // Format 0, one track, 96 ticks a quarter, one note (Standard MIDI Files 1.0).
    const bytes = Buffer.from("4d546864000000060000000100604d54726b0000000c00903c4060803c4000ff2f00", "hex");
    const query = `?${new URLSearchParams({ drill: "steady", rung: rungOf(1), mix: "play", zero: "bar-1" })}`;
    const init = { body: bytes, headers: { "content-type": "audio/midi" }, query, at: { take: "midi-1" } };
    const answer = await raw(school.address, "submit", init);
    expect(await answer.json()).toMatchObject({
      take: "midi-1",
      finding: { verdict: "unclear" },
      decision: { what: "hold" },
    });
    const broken = await raw(school.address, "submit", {
      ...init,
      body: bytes.subarray(0, 20),
      at: { take: "midi-2" },
    });
    expect(broken.status).toBe(422);
  });

  test("tells a student and their teacher where they are, what is next and what is kept", async () => {
    const at = { params: { path: AT_TERN } };
    for (const who of [tern, teacher]) {
      const standing = await who.GET("/api/students/{student}/courses/{course}/standing", at);
      expect(standing.data).toMatchObject({ student: "tern", edition: "1.0.0" });
      const tag = standing.response.headers.get("etag")!;
      const again = await who.GET("/api/students/{student}/courses/{course}/standing", {
        ...at,
        headers: { "if-none-match": tag },
      });
      expect([again.response.status, await again.response.text()]).toEqual([304, ""]);
      const plan = await who.GET("/api/students/{student}/courses/{course}/plan", {
        params: { path: AT_TERN, query: { minutes: 20 } },
      });
      expect(plan.data!.lines.length).toBeGreaterThan(0);
      const report = await who.GET("/api/students/{student}/courses/{course}/report", at);
      expect(report.data!.students).toMatchObject([{ student: "tern" }]);
    }
    const journal = await tern.GET("/api/students/{student}/courses/{course}/journal", { ...at, parseAs: "text" });
    const kept = await eventsOf(school.store, { student: "tern", curriculum: "quay" });
    expect(
      (journal.data as string)
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line)),
    ).toEqual(kept);
  });

  test("finds where a student begins, take by take", async () => {
    const rung = await tern.POST("/api/students/{student}/courses/{course}/placement", {
      params: { path: AT_TERN },
      body: { drill: "steady" },
    });
    expect(rung.data).toMatchObject({ drill: "steady", done: false });
    const number = rung.data!.number;
    const next = await tern.POST("/api/students/{student}/courses/{course}/placement", {
      params: { path: AT_TERN },
      body: { drill: "steady", take: { ...take("p1", "in time", number - 1) } as never },
    });
    expect(next.data!.tried.length).toBeGreaterThan(0);
    expect(next.data!.finding).toBeDefined();
    const reused = await tern.POST("/api/students/{student}/courses/{course}/placement", {
      params: { path: AT_TERN },
      body: { drill: "steady", take: { ...take("p1", "in time", number === 1 ? 1 : 0) } as never },
    });
    expect(reused.error).toMatchObject({ code: "TAKE_ID_REUSED", status: 409 });
  });

  test("merges a journal from elsewhere, of this student alone", async () => {
    const kept = await eventsOf(school.store, { student: "tern", curriculum: "quay" });
    const lines = `${kept.map((event) => JSON.stringify(event)).join("\n")}\nno json\n`;
    const headers = { "content-type": "application/jsonl" };
    const merged = await raw(school.address, "mergeJournal", { body: lines, headers });
    expect(await merged.json()).toMatchObject({
      added: 0,
      known: kept.length,
      problems: [{ where: { line: kept.length + 1 } }],
    });
    const foreign = await raw(school.address, "mergeJournal", { body: lines.replaceAll('"tern"', '"knot"'), headers });
    expect(foreign.status).toBe(404);
    expect(await school.store.open({ student: "knot", curriculum: "quay" })).toBeUndefined();
  });

  test("sets a rung as a teacher's wish, on the standing that the teacher saw", async () => {
    const at = { params: { path: AT_TERN } };
    const seen = await teacher.GET("/api/students/{student}/courses/{course}/standing", at);
    const body = { drill: "steady", rung: rungOf(2), reason: "knows it from another school" };
    const tag = seen.response.headers.get("etag")!;
    const set = await teacher.POST("/api/students/{student}/courses/{course}/rung", {
      ...at,
      body,
      headers: { "if-match": tag },
    });
    expect(set.response.status).toBe(200);
    const late = await teacher.POST("/api/students/{student}/courses/{course}/rung", {
      ...at,
      body,
      headers: { "if-match": tag },
    });
    expect(late.error).toMatchObject({ code: "STANDING_CHANGED", status: 412 });
    const last = (await eventsOf(school.store, { student: "tern", curriculum: "quay" })).at(-1);
    expect(last).toMatchObject({ kind: "set by teacher", teacher: "avocet", because: body.reason });
    const unknown = await teacher.POST("/api/students/{student}/courses/{course}/rung", {
      ...at,
      body: { ...body, drill: "no" },
    });
    expect(unknown.error!.code).toBe("PROGRESS_DRILL_UNKNOWN");
    const over = await raw(school.address, "takeOver", { headers: { "if-match": '"other"' } });
    expect(over.status).toBe(412);
    expect((await teacher.GET("/api/students/{student}/courses/{course}/edition", at)).data).toMatchObject({
      isAffected: false,
    });
    expect((await teacher.POST("/api/students/{student}/courses/{course}/edition", at)).data).toMatchObject({
      to: "1.0.0",
    });
  });

  test("lists courses, classes and students, a page at a time, and reports them", async () => {
    expect((await tern.GET("/api/courses")).data!.items).toMatchObject([
      { name: "quay", drills: [{ rungs: 4 }, { rungs: 2 }] },
    ]);
    const course = await tern.GET("/api/courses/{course}", { params: { path: { course: "quay" } } });
    const path = { course: "quay", edition: "1.0.0" };
    const edition = await tern.GET("/api/courses/{course}/editions/{edition}", { params: { path } });
    expect(edition.data).toEqual(course.data);
    await teacher.POST("/api/classes", { body: { name: "tuesday", course: "quay", from: "2026-09-01" } });
    expect((await teacher.GET("/api/classes")).data!.items.map(({ name }) => name)).toEqual(["monday", "tuesday"]);
    const twice = await teacher.POST("/api/classes", { body: { name: "tuesday", course: "quay" } });
    expect(twice.error).toMatchObject({ code: "CLASS_TAKEN" });
    const unknown = await teacher.POST("/api/classes", { body: { name: "w", course: "harbour" } });
    expect(unknown.error).toMatchObject({ code: "COURSE_NOT_SERVED", problems: [{ remedy: "courses here are quay" }] });
    const names: string[] = [];
    for (let after: string | undefined; ; ) {
      const { data } = await teacher.GET("/api/classes/{class}/students", {
        params: { path: { class: "monday" }, query: { limit: 1, ...(after && { after }) } },
      });
      names.push(...data!.items.map(({ name }) => name));
      after = data!.next;
      if (after === undefined) break;
    }
    expect(names).toEqual(["plover", "tern"]);
    const report = await teacher.GET("/api/classes/{class}/report", { params: { path: { class: "monday" } } });
    expect(report.data!.report.students.map(({ student }) => student)).toEqual(["plover", "tern"]);
    expect(report.data!.next).toBeUndefined();
    const first = await teacher.GET("/api/classes/{class}/report", {
      params: { path: { class: "monday" }, query: { limit: 1 } },
    });
    expect(first.data!.report.students.map(({ student }) => student)).toEqual(["plover"]);
    const second = await teacher.GET("/api/classes/{class}/report", {
      params: { path: { class: "monday" }, query: { limit: 1, after: first.data!.next! } },
    });
    expect(second.data!.report.students.map(({ student }) => student)).toEqual(["tern"]);
    expect(second.data!.next).toBeUndefined();
    const empty = await teacher.GET("/api/classes/{class}/report", { params: { path: { class: "tuesday" } } });
    expect(empty.data!.report.students).toEqual([]);
  });

  test("makes, lists and takes back tokens, and ends a session", async () => {
    const made = (await tern.POST("/api/tokens")).data!;
    const app = school.client(made.token);
    expect((await app.GET("/api/me")).data).toMatchObject({
      name: "tern",
      role: "student",
      classes: [{ name: "monday" }],
    });
    const listed = await tern.GET("/api/tokens");
    expect(listed.data!.items.map(({ id }) => id)).toContain(made.id);
    expect(JSON.stringify(listed.data)).not.toContain(made.token);
    expect((await tern.DELETE("/api/tokens/{token}", { params: { path: { token: made.id } } })).response.status).toBe(
      204,
    );
    expect((await app.GET("/api/me")).error).toMatchObject({ code: "KEY_UNKNOWN" });
    const other = school.client((await tern.POST("/api/tokens")).data!.token);
    expect((await other.DELETE("/api/session")).response.status).toBe(204);
    expect((await other.GET("/api/me")).response.status).toBe(401);
  });

  test("is up, says what it is, and counts in OpenMetrics without a name", async () => {
    const nobody = school.client();
    expect((await nobody.GET("/health")).data).toEqual({ status: "up" });
    expect((await nobody.GET("/openapi.json")).data).toEqual(schoolDocument("0.0.0"));
    const metrics = (await teacher.GET("/metrics", { parseAs: "text" })).data as string;
    expect(metrics).toMatch(/leeway_requests_total\{operation="submit",status="200"\} \d+\n/);
    expect(metrics.endsWith("# EOF\n")).toBe(true);
    expect(metrics + JSON.stringify(school.log)).not.toMatch(/tern|plover|avocet|monday/);
    expect(school.log.length).toBeGreaterThan(30);
  });

  test("does not send again what has not changed", async () => {
    for (const id of IDS) {
      const { method, answer } = OPERATIONS[id];
      if (method !== "get" || answer.type !== "application/json") continue;
      const at = { edition: "1.0.0" };
      const first = await raw(school.address, id, { at });
      const tag = first.headers.get("etag")!;
      const again = await raw(school.address, id, { at, headers: { "if-none-match": `"other", W/${tag}` } });
      expect([id, first.status, again.status]).toEqual([id, 200, 304]);
      expect(first.headers.get("cache-control")).toBe("private, no-cache");
    }
  });

  test("begins and ends a pause", async () => {
    const at = { params: { path: { student: "tern" } } };
    for (const paused of [true, false]) {
      expect((await teacher.PUT("/api/students/{student}/pause", { ...at, body: { paused } })).response.status).toBe(
        204,
      );
      expect((await tern.GET("/api/courses")).response.status).toBe(paused ? 403 : 200);
    }
  });

  test("erases a student who says so, or whose every teacher it is", async () => {
    const at = { params: { path: { student: "plover" } } };
    expect((await teacher.DELETE("/api/students/{student}", at)).error).toMatchObject({
      code: "ERASING_NOT_CONFIRMED",
    });
    await school.bring("dunlin", { role: "teacher", className: "friday" });
    await school.bring("plover", { role: "student", className: "friday" });
    const sure = { params: { ...at.params, query: { confirm: "plover" } } };
    expect((await teacher.DELETE("/api/students/{student}", sure)).error).toMatchObject({
      code: "STUDENT_IN_OTHER_CLASS",
    });
    const path = { class: "monday", student: "plover" };
    await school.bring("ruff", { role: "student", className: "monday" });
    const ruff = { class: "monday", student: "ruff" };
    expect(
      (await teacher.DELETE("/api/classes/{class}/students/{student}", { params: { path: ruff } })).response.status,
    ).toBe(204);
    expect(
      (await teacher.DELETE("/api/classes/{class}/students/{student}", { params: { path: ruff } })).response.status,
    ).toBe(404);
    expect(path.student).toBe("plover");
    const own = await tern.DELETE("/api/students/{student}", {
      params: { path: { student: "tern" }, query: { confirm: "tern" } },
    });
    expect(own.data).toMatchObject({ journals: 1 });
    expect((await tern.GET("/api/me")).response.status).toBe(401);
  });
});

describe("every operation refuses", () => {
  test("what is too large, also when it comes in pieces without a length", async () => {
    for (const id of IDS) {
      const [type, kind] = Object.entries(OPERATIONS[id].body ?? {})[0] ?? [];
      if (type === undefined || kind === undefined) continue;
      await school.bring("tern", { role: "student", className: "monday" });
      const bytes = new Uint8Array(kind.most + 1).fill(32);
      const pieces = new ReadableStream({
        start: (controller) => {
          for (let i = 0; i < bytes.length; i += 1e6) controller.enqueue(bytes.subarray(i, i + 1e6));
          controller.close();
        },
      });
      const init = { headers: { "content-type": type } };
      const whole = await raw(school.address, id, { ...init, body: bytes });
      const chunked = await raw(school.address, id, { ...init, body: pieces, duplex: "half" } as RequestInit);
      expect([id, whole.status, chunked.status]).toEqual([id, 413, 413]);
      expect((await raw(school.address, id, { body: bytes.subarray(0, 9) })).status).toBe(415);
      expect(
        (await raw(school.address, id, { ...init, headers: { "content-type": "image/png" }, body: "x" })).status,
      ).toBe(415);
      if (type !== "application/json") continue;
      expect((await raw(school.address, id, { ...init, body: "{" })).status).toBe(400);
      expect((await raw(school.address, id, { ...init, body: new Uint8Array([34, 255, 34]) })).status).toBe(400);
      expect((await raw(school.address, id, { ...init, body: '"no object"' })).status).toBe(422);
    }
  });

  test("a query that says a thing twice, or a thing that it does not know", async () => {
    for (const id of IDS) {
      expect([id, (await raw(school.address, id, { query: "?a=1&a=2" })).status]).toEqual([id, 400]);
      expect([id, (await raw(school.address, id, { query: "?unheard=1" })).status]).toEqual([id, 422]);
    }
  });

  test("requests for another host, from pages of other sites, without a key, and about what is not there", async () => {
    const none = { student: "gull", class: "none", course: "none", edition: "0", token: "0", invitation: "0" };
    for (const id of IDS) {
      const { method, path, body } = OPERATIONS[id];
      const misled = await askAs(school.address, "gull.example", { id, token: teachersToken });
      expect([id, misled.status, (await misled.json()).code]).toEqual([id, 421, "HOST_UNKNOWN"]);
      if (path.includes("{")) {
        const type = Object.keys(body ?? {})[0];
        const init = type === undefined ? {} : { body: "{}", headers: { "content-type": type } };
        expect([id, (await raw(school.address, id, { at: none, ...init })).status]).toEqual([id, 404]);
      }
      const evil = await raw(school.address, id, { headers: { origin: "https://gull.example" } });
      expect([id, (await evil.json()).code]).toEqual([id, "ORIGIN_FOREIGN"]);
      if (OPERATIONS[id].who !== "anyone")
        expect([id, (await raw(school.address, id, { headers: { authorization: "Bearer x" } })).status]).toEqual([
          id,
          401,
        ]);
      expect(method).toBeDefined();
    }
  });

  test("more requests than it takes, with the time to wait", async () => {
    const small = await servedSchool({ limits: { perMinute: 1 } });
    await raw(small.address, "health");
    for (const id of IDS) {
      const answer = await raw(small.address, id, { headers: { "x-forwarded-for": `10.0.0.${IDS.indexOf(id)}` } });
      expect([id, answer.status, Number(answer.headers.get("retry-after"))]).toEqual([id, 429, 60]);
    }
    await small.close();
  });

  test("to wait for ever, and hides what the store and the program say", async () => {
    const faults: Readonly<Record<string, () => Promise<never>>> = {
      "503 SCHOOL_STORE_FAILED": () =>
        Promise.reject(Object.assign(new Error("x"), { problem: { code: "STORE_BUSY", message: "/home/school" } })),
      "500 SCHOOL_DEFECT": () => Promise.reject(new Error("tern: /home/school")),
      "504 ANSWER_TOO_SLOW": () => new Promise(() => undefined),
    };
    for (const [said, fault] of Object.entries(faults)) {
      const [status, code] = said.split(" ");
      const ill = await servedSchool({
        limits: { perMinute: 1e6, patience: 30 },
        wrap: (store): Store => ({
          ...store,
          register: { ...store.register!, holderOf: fault, hasTeacher: fault },
        }),
      });
      for (const id of IDS) {
        const answer = await raw(ill.address, id);
        const text = await answer.text();
        expect([id, answer.status, JSON.parse(text).code]).toEqual([id, Number(status), code]);
        expect(text).not.toMatch(/home|tern/);
      }
      expect(JSON.stringify(ill.log)).not.toMatch(/home|tern/);
      await ill.close();
    }
  });
});

test("every answer that the document foresees was seen, and no other", () => {
  const { paths } = schoolDocument("0") as unknown as {
    readonly paths: Record<string, Record<string, { operationId: string; responses: Record<string, unknown> }>>;
  };
  const foreseen = Object.values(paths).flatMap((operations) =>
    Object.values(operations).flatMap(({ operationId, responses }) =>
      Object.keys(responses).map((status) => `${operationId} ${status}`),
    ),
  );
  expect(foreseen.filter((each) => !exchanges.has(each))).toEqual([]);
});
