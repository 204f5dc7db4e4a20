import { importJournals, type Store } from "../../../store/index.js";
import { type Asked, ask, at, type Refusal } from "../../school/ask.js";
import { findMember, type Member } from "./member.js";
import { type Outbox, openOutbox, type Posted } from "./outbox.js";

/** The school that the page came from, as a student's page deals with it. */
export interface PageSchool {
  /** Who is signed in here; `undefined`: nobody. */
  readonly member: Member | undefined;
  /** Whether what this student plays in this course goes to the school. */
  isKept(student: string, course: string): boolean;
  /** Takes of a student that are not at the school: those that wait, and those that it refused. */
  waiting(student: string): Promise<readonly Posted[]>;
  /** Keeps a take for the school, durably, before it is counted here. */
  post(posted: Posted): Promise<void>;
  /** Sends what waits, and takes in what the school knows of the student in a course. Resolves when that is done, or cannot be done now. */
  meet(student: string, course: string): Promise<void>;
  /** Takes off what waits of a student: their journal here was erased, or the take was refused here. */
  forget(which: { readonly student: string; readonly id?: string }): Promise<void>;
}

/** Seconds until the school is asked again when it was not reached; our choice. */
const AGAIN_S = 30;

/** Opens the school of this page. `changed` is called when something was sent or refused. */
export async function openSchool(store: () => Promise<Store>, changed: () => void): Promise<PageSchool> {
  const [member, outbox] = await Promise.all([findMember(), openOutbox()]);
  const isKept = (student: string, course: string): boolean =>
    member?.role === "student" && member.name === student && member.courses.includes(course);
  const ofStudent = async (student: string): Promise<readonly Posted[]> =>
    (await outbox.all()).filter((posted) => posted.student === student);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let working: Promise<void> = Promise.resolve();

  const meet = async (student: string, course: string): Promise<void> => {
    if (!isKept(student, course)) return;
    clearTimeout(timer);
    const waited = await sendAll(
      outbox,
      (await ofStudent(student)).filter(({ refused }) => refused === undefined),
    );
    const known = waited === undefined ? await takeIn(await store(), student, course) : undefined;
    const wait = waited ?? known;
    if (wait !== undefined) timer = setTimeout(() => void later(student, course), 1000 * wait);
    changed();
  };
  /** One after the other: two that send at once would ask twice. */
  const later = (student: string, course: string): Promise<void> => {
    working = working.then(() => meet(student, course));
    return working;
  };
  return {
    member,
    isKept,
    waiting: ofStudent,
    post: (posted) => outbox.put(posted),
    meet: (student, course) => {
      addEventListener("online", () => void later(student, course), { once: true });
      return later(student, course);
    },
    forget: async ({ student, id }) => {
      for (const posted of await ofStudent(student))
        if (id === undefined || posted.id === id) await outbox.remove(posted.id);
      changed();
    },
  };
}

/** Sends takes in their order. Seconds to wait when the school could not take one now; what it will never take is marked, and the others go on. */
async function sendAll(outbox: Outbox, takes: readonly Posted[]): Promise<number | undefined> {
  for (const posted of takes) {
    const sent = await send(posted);
    if (sent.ok || sent.refusal.code === "TAKE_CHANGED") await outbox.remove(posted.id);
    else if (isForNow(sent.refusal)) return sent.refusal.wait ?? AGAIN_S;
    else {
      const [problem] = sent.refusal.problems;
      await outbox.put({ ...posted, refused: problem?.message ?? sent.refusal.code });
    }
  }
  return undefined;
}

/** Not reached, not signed in any more, away, too late, too many at once, or something wrong in the school: it may do so later. */
export function isForNow({ status }: Pick<Refusal, "status">): boolean {
  return [0, 401, 403, 408, 429].includes(status) || status >= 500;
}

function send({ id, student, course, placing, take }: Posted): Promise<Asked<unknown>> {
  const inCourse = (...parts: readonly string[]): string => at("students", student, "courses", course, ...parts);
  return placing
    ? ask(inCourse("placement"), { method: "POST", body: { drill: take.drill, take } })
    : ask(inCourse("takes", id), { method: "PUT", body: take });
}

/** Takes in what the school knows of a student: what they played elsewhere, and what teachers set. Seconds to wait when it was not reached. */
async function takeIn(store: Store, student: string, course: string): Promise<number | undefined> {
  const journal = await ask<string>(at("students", student, "courses", course, "journal"));
  if (!journal.ok) return isForNow(journal.refusal) ? (journal.refusal.wait ?? AGAIN_S) : undefined;
  const lines = journal.value.split("\n").filter((line) => line !== "");
  // A store that cannot keep it now is asked again with the next take; what was played is not touched.
  await importJournals(
    store,
    lines.map((line, i) => ({ value: JSON.parse(line) as unknown, line: i + 1 })),
  ).catch(() => undefined);
  return undefined;
}
