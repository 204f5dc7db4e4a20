import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { OperationId } from "../../lib/server/operations/operationId.js";
import { OPERATIONS } from "../../lib/server/operations/operations.js";
import { type Served, servedSchool } from "./served.js";

/** Who asks: a student of the class and one of another; the teacher of the class and one of another; somebody with a key that is not known; nobody. */
const ASKERS = ["tern", "knot", "avocet", "dunlin", "stranger", "nobody"] as const;
type Asker = (typeof ASKERS)[number];

/** `in`: let in, whatever the answer to what they say. Otherwise the status of the refusal. What is not to be seen is 404, as what is not there. */
type Row = Readonly<Record<Asker, "in" | 401 | 403 | 404>>;

const OPEN: Row = { tern: "in", knot: "in", avocet: "in", dunlin: "in", stranger: "in", nobody: "in" };
const KNOWN: Row = { ...OPEN, stranger: 401, nobody: 401 };
const TEACHERS: Row = { ...KNOWN, tern: 403, knot: 403 };
/** Of class monday: its teacher. */
const CLASS: Row = { ...TEACHERS, dunlin: 404 };
/** Of student tern: tern, and the teacher of monday. */
const OWN: Row = { ...KNOWN, knot: 404, dunlin: 404 };
/** Of student tern, for teachers. */
const TAUGHT: Row = CLASS;

/** The whole table: what each may ask about student tern, class monday and course quay. A new operation without a row does not compile. */
const TABLE: Readonly<Record<OperationId, Row>> = {
  health: OPEN,
  document: OPEN,
  metrics: TEACHERS,
  showInvitation: OPEN,
  acceptInvitation: OPEN,
  me: KNOWN,
  signOut: KNOWN,
  tokens: KNOWN,
  addToken: KNOWN,
  removeToken: KNOWN,
  courses: KNOWN,
  course: KNOWN,
  edition: KNOWN,
  classes: KNOWN,
  beginClass: TEACHERS,
  students: CLASS,
  removeStudent: CLASS,
  classReport: CLASS,
  invitations: CLASS,
  invite: CLASS,
  revoke: CLASS,
  pause: TAUGHT,
  erase: OWN,
  standing: OWN,
  submit: OWN,
  plan: OWN,
  place: OWN,
  report: OWN,
  journal: OWN,
  mergeJournal: TAUGHT,
  setRung: TAUGHT,
  foreseeEdition: TAUGHT,
  takeOver: TAUGHT,
};

const REFUSALS = ["KEY_MISSING", "KEY_UNKNOWN", "ROLE_REFUSED", "NOT_THERE"];
let school: Served;
const tokens = new Map<Asker, string>();

beforeAll(async () => {
  school = await servedSchool({ limits: { perMinute: 1e6 } });
});
afterAll(() => school.close());

/** Everybody with a new token: some operations end them. */
async function bringEverybody(): Promise<void> {
  for (const [name, role, className] of [
    ["avocet", "teacher", "monday"],
    ["tern", "student", "monday"],
    ["dunlin", "teacher", "friday"],
    ["knot", "student", "friday"],
  ] as const)
    tokens.set(name, await school.bring(name, { role, className }));
  tokens.set("stranger", "not-a-known-token");
}

function ask(id: OperationId, asker: Asker, more: { readonly student?: string } = {}): Promise<Response> {
  const { method, path, body } = OPERATIONS[id];
  const names: Record<string, string> = {
    student: more.student ?? "tern",
    class: "monday",
    course: "quay",
    edition: "9.9.9",
    take: "never-played",
    token: "none",
    invitation: "none",
  };
  const place = path.replaceAll(/\{(\w+)\}/g, (_, name: string) => names[name]!);
  const token = tokens.get(asker);
  return fetch(`${school.address}${place}`, {
    method: method.toUpperCase(),
    headers: {
      ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
      ...(body === undefined ? {} : { "content-type": Object.keys(body)[0]! }),
    },
    ...(body === undefined ? {} : { body: "[]" }),
  });
}

describe("who may ask", () => {
  test.each(Object.keys(OPERATIONS) as OperationId[])(
    "%s is answered to those of the table, and to nobody else",
    async (id) => {
      await bringEverybody();
      const found: Record<string, unknown> = {};
      for (const asker of ASKERS) {
        const answer = await ask(id, asker);
        const code =
          answer.headers.get("content-type") === "application/problem+json" ? (await answer.json()).code : "";
        // What is not there is answered to those who may see it too; what is there is not.
        const isThere = !OPERATIONS[id].path.match(/\{(?:token|edition|invitation)\}/);
        const isRefused = REFUSALS.includes(code) && (code !== "NOT_THERE" || TABLE[id][asker] !== "in" || isThere);
        found[asker] = isRefused ? answer.status : "in";
      }
      // Taking tern out of the class by its teacher, who is last but one of those asked before dunlin, changes what is there.
      if (id === "removeStudent") await bringEverybody();
      expect(found).toEqual(TABLE[id]);
    },
  );

  test("what belongs to others is answered as what is not there, to the byte", async () => {
    await bringEverybody();
    for (const id of ["standing", "journal", "report", "plan", "erase"] as const) {
      const answers = ["tern", "nobody-of-this-name"].map(async (student) => {
        const answer = await ask(id, "knot", { student });
        const { request: _request, ...told } = await answer.json();
        return [answer.status, told];
      });
      const [foreign, missing] = await Promise.all(answers);
      expect(foreign).toEqual(missing);
      expect(JSON.stringify(foreign)).not.toMatch(/tern|avocet|sqlite/);
    }
  });

  test("a teacher sees a student in the course of their own class, and in no other", async () => {
    await bringEverybody();
    const { register } = school.school;
    await register.beginClass({ name: "evening", curriculum: "harbour" });
    tokens.set("dunlin", await school.bring("dunlin", { role: "teacher", className: "evening" }));
    await school.bring("tern", { role: "student", className: "evening" });
    const answers: number[] = [];
    for (const id of ["standing", "submit", "journal", "setRung", "takeOver"] as const)
      answers.push((await ask(id, "dunlin")).status);
    expect(answers).toEqual([404, 404, 404, 404, 404]);
    const erased = await fetch(`${school.address}/api/students/tern?confirm=tern`, {
      method: "DELETE",
      headers: { authorization: `Bearer ${tokens.get("avocet")}` },
    });
    expect((await erased.json()).code).toBe("STUDENT_IN_OTHER_CLASS");
    await register.leave("tern", "evening");
  });

  test("a student who is away may see who they are, sign out and be erased, and nothing else", async () => {
    await bringEverybody();
    const teacher = school.client(tokens.get("avocet"));
    const path = { params: { path: { student: "tern" } } };
    expect(
      (await teacher.PUT("/api/students/{student}/pause", { ...path, body: { paused: true } })).response.status,
    ).toBe(204);
    const may: string[] = [];
    for (const id of Object.keys(OPERATIONS) as OperationId[]) {
      if (OPERATIONS[id].who === "anyone" || TABLE[id].tern !== "in") continue;
      const answer = await ask(id, "tern");
      const code = answer.headers.get("content-type") === "application/problem+json" ? (await answer.json()).code : "";
      if (code !== "STUDENT_PAUSED") may.push(id);
      if (id === "signOut") tokens.set("tern", await school.bring("tern", { role: "student", className: "monday" }));
    }
    expect(may).toEqual(["me", "signOut", "removeToken", "erase"]);
    await teacher.PUT("/api/students/{student}/pause", { ...path, body: { paused: false } });
    expect((await ask("standing", "tern")).status).toBe(200);
  });
});
