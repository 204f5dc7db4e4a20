import { request as httpRequest } from "node:http";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { enrol } from "../../lib/practice/index.js";
import { digestOf } from "../../lib/server/access/digestOf.js";
import type { OperationId } from "../../lib/server/operations/operationId.js";
import { OPERATIONS } from "../../lib/server/operations/operations.js";
import { idOf } from "../../lib/server/routes/people.js";
import { playTo, quay } from "../practice/quay.js";
import { type Served, servedSchool } from "./served.js";

/*
 * What belongs to others is answered as what is not there: by status, code, sentence, number of bytes and every header, whatever is asked, and whatever stands in the
 * body, the query or the conditions. Names of one length stand for each other, so that an answer that repeats a name would show. How long an answer takes is not looked at.
 */

const IDS = Object.keys(OPERATIONS) as OperationId[];
/** Class monday: teacher avocet, student tern. Class friday: teacher dunlin, students knot and, in another course, sora. */
const PEOPLE = [
  ["avocet", "teacher", "monday"],
  ["tern", "student", "monday"],
  ["dunlin", "teacher", "friday"],
  ["knot", "student", "friday"],
] as const;

const FIRST: string = settingsText(rungs(quay().drills[0]!).at(0).settings);

let school: Served;
const tokens = new Map<string, string>();

beforeAll(async () => {
  school = await servedSchool({ limits: { perMinute: 1e6 } });
  for (const [name, role, className] of PEOPLE) tokens.set(name, await school.bring(name, { role, className }));
  // Dunlin's student knot has a second course, with another teacher.
  const { register } = school.school;
  await register.beginClass({ name: "evening", curriculum: "harbour" });
  await school.bring("godwit", { role: "teacher", className: "evening" });
  await school.bring("knot", { role: "student", className: "evening" });
  await enrol(school.store, "knot", { course: { ...quay(), name: "harbour" }, at: "2026-09-01T08:00:00Z" });
});
afterAll(() => school.close());

type Names = Readonly<Record<string, string>>;
interface Way {
  readonly body?: string;
  readonly query?: string;
  readonly headers?: Readonly<Record<string, string>>;
}

/** All that an answer shows: its status, its headers in their order, and its body but for the number of the request. */
interface Shown {
  readonly status: number;
  readonly headers: readonly string[];
  readonly bytes: number;
  readonly body: string;
}

function ask(
  id: OperationId,
  who: string | undefined,
  { names, way }: { readonly names: Names; readonly way: Way },
): Promise<Shown> {
  const { method, path, body } = OPERATIONS[id];
  const { port } = new URL(school.loopback);
  const place = path.replaceAll(/\{(\w+)\}/g, (_, each: string) => encodeURIComponent(names[each]!));
  const text = body === undefined ? undefined : (way.body ?? "{}");
  const headers = {
    ...(who === undefined ? {} : { authorization: `Bearer ${tokens.get(who) ?? "not-known"}` }),
    ...(body === undefined ? {} : { "content-type": Object.keys(body)[0]! }),
    ...way.headers,
  };
  return new Promise((resolve, reject) => {
    const options = {
      host: "127.0.0.1",
      port,
      path: `${place}${way.query ?? ""}`,
      method: method.toUpperCase(),
      headers,
    };
    httpRequest(options, async (answer) => {
      const pieces: Buffer[] = [];
      for await (const piece of answer) pieces.push(piece as Buffer);
      const all = Buffer.concat(pieces);
      const isDate = (_: string, i: number, whole: readonly string[]): boolean => /^date$/i.test(whole[i - (i % 2)]!);
      resolve({
        status: answer.statusCode!,
        headers: answer.rawHeaders.filter((...at) => !isDate(...at)),
        bytes: all.length,
        body: all.toString().replace(/"request":"[\w-]{10}"/, ""),
      });
    })
      .once("error", reject)
      .end(text);
  });
}

/** Ways of asking: as it should be, with what is refused once one has been let in, and on conditions. */
const WAYS: Readonly<Record<string, Way>> = {
  plainly: {},
  "with a body that is none": { body: "[" },
  "with a take": { body: JSON.stringify(playTo(quay(), { id: "t", drill: "steady", rung: FIRST, how: "in time" })) },
  "with its name to be sure": { query: "?confirm=tern" },
  "with a query that is none": { query: "?a=1&a=2" },
  "if it has changed": { headers: { "if-none-match": "*", "if-match": '"none"' } },
};

const ALL: Names = {
  student: "tern",
  class: "monday",
  course: "quay",
  edition: "1.0.0",
  take: "t",
  token: "0123456789abcdef",
  invitation: "0123456789abcdef",
};

/** What each outsider may not see, and what is not there, of the same length. */
const PAIRS: readonly {
  readonly asked: string;
  readonly who: string | undefined;
  readonly of: (id: OperationId) => boolean;
  readonly theirs: Names;
  readonly missing: Names;
}[] = [
  ...["knot", "dunlin", "stranger", undefined].map((who) => ({
    asked: `a student, by ${who ?? "nobody"}`,
    who,
    of: names("student"),
    theirs: { student: "tern" },
    missing: { student: "gull" },
  })),
  ...["knot", "dunlin", "stranger", undefined].map((who) => ({
    asked: `a class, by ${who ?? "nobody"}`,
    who,
    of: names("class"),
    theirs: { class: "monday" },
    missing: { class: "sunday" },
  })),
  {
    asked: "a student of another class, in one's own",
    who: "dunlin",
    of: (id) => names("class")(id) && names("student")(id),
    theirs: { class: "friday", student: "tern" },
    missing: { class: "friday", student: "gull" },
  },
  {
    asked: "a teacher, as if a student",
    who: "dunlin",
    of: names("student"),
    theirs: { student: "avocet" },
    missing: { student: "curlew" },
  },
  {
    asked: "another course of one's own student",
    who: "dunlin",
    of: (id) => names("student")(id) && names("course")(id),
    theirs: { student: "knot", course: "harbour" },
    missing: { student: "knot", course: "jetties" },
  },
  {
    asked: "one's own student, in a course of the school that they are not in",
    who: "godwit",
    of: (id) => names("student")(id) && names("course")(id),
    theirs: { student: "knot", course: "quay" },
    missing: { student: "knot", course: "pier" },
  },
];

function names(what: string): (id: OperationId) => boolean {
  return (id) => OPERATIONS[id].path.includes(`{${what}}`);
}

describe("an outsider", () => {
  test.each(PAIRS)("cannot tell $asked, from what is not there", async ({ who, of, theirs, missing }) => {
    const asked = IDS.filter(of);
    expect(asked.length).toBeGreaterThan(0);
    for (const id of asked)
      for (const [how, way] of Object.entries(WAYS)) {
        const [foreign, none] = [theirs, missing].map((each) => ({ names: { ...ALL, ...each }, way }));
        const there = await ask(id, who, foreign!);
        expect([id, how, there]).toEqual([id, how, await ask(id, who, none!)]);
        expect([id, how, there.status]).toEqual([
          id,
          how,
          expect.toSatisfy((status: number) => [401, 403, 404].includes(status)),
        ]);
      }
  });

  test("cannot tell a token of somebody else, or an invitation of another class, from one that is not there", async () => {
    const theirs = idOf(digestOf(tokens.get("tern")!));
    const made = await school.client(tokens.get("avocet")).POST("/api/classes/{class}/invitations", {
      params: { path: { class: "monday" } },
      body: { days: 3 },
    });
    for (const way of Object.values(WAYS)) {
      const token = (each: string) => ask("removeToken", "knot", { names: { ...ALL, token: each }, way });
      expect(await token(theirs)).toEqual(await token("0123456789abcdef"));
      const link = (each: string) =>
        ask("revoke", "dunlin", { names: { ...ALL, class: "friday", invitation: each }, way });
      expect(await link(made.data!.id)).toEqual(await link("0123456789abcdef"));
    }
    // Both are there still.
    expect((await school.client(tokens.get("tern")).GET("/api/me")).response.status).toBe(200);
    expect(
      (await school.client().POST("/api/invitations/show", { body: { secret: made.data!.secret } })).response.status,
    ).toBe(200);
  });

  test("of an edition of a course learns what everybody of the school may, and no more", async () => {
    const known = await ask("course", "knot", { names: ALL, way: {} });
    expect(known.status).toBe(200);
    const [other, none] = await Promise.all(
      ["harbour", "jetties"].map((course) => ask("course", "knot", { names: { ...ALL, course }, way: {} })),
    );
    expect(other).toEqual(none);
  });
});

test("a name that is taken is told, as two cannot have one: to a teacher who begins a class, and to whoever has a link", async () => {
  const dunlin = school.client(tokens.get("dunlin"));
  const codes: unknown[] = [];
  for (const name of ["monday", "thursday"])
    codes.push((await dunlin.POST("/api/classes", { body: { name, course: "quay" } })).error?.code);
  const made = await dunlin.POST("/api/classes/{class}/invitations", {
    params: { path: { class: "friday" } },
    body: { days: 3 },
  });
  for (const name of ["tern", "avocet"]) {
    const body = { secret: made.data!.secret, as: "token" as const, name };
    codes.push((await school.client().POST("/api/invitations/accept", { body })).error?.code);
  }
  expect(codes).toEqual(["CLASS_TAKEN", undefined, "NAME_TAKEN", "NAME_TAKEN"]);
});
