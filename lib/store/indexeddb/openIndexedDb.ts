import { failure, success } from "../../base/index.js";
import { compareEvents } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import { byName } from "../byName.js";
import { checkEvents, requireEvents } from "../checkEvents.js";
import { isStoreProblem } from "../failure.js";
import type { CourseText, JournalEntry, JournalKey, Store } from "../model.js";
import type { Problem, Result } from "../problem.js";
import { sameCourse } from "../sameCourse.js";
import { say } from "../say.js";
import { summariesByEvents } from "../summariesByEvents.js";
import { addEvents, freshOf, rangeOf, rowOf, type Writing } from "./addEvents.js";
import { type Connection, connect, type Database } from "./connection.js";
import { learntIn } from "./learnt.js";
import { indexedDbProblem } from "./problems.js";
import type { CourseRow, JournalRow } from "./tables.js";
import { repairJournal, verifyJournal } from "./verify.js";

/** What is written or erased at once. */
const WRITTEN = ["journals", "events", "setAside", "learnt"] as const;

/** Where a browser may have copies that no page can reach. */
const ELSEWHERE = ["store.browser-files", "store.device-copies", "store.exported"] as const;

/**
 * Opens the store in IndexedDB, for pages that keep journals on the device; several tabs may have it open at once. What a method has acknowledged
 * is there after a crash (strict durability). Whether the browser keeps it for good is another question: see `askToKeep` of `leeway/browser`.
 *
 * Problems: STORE_PLACE_UNUSABLE where the browser keeps nothing, STORE_VERSION_NEWER, STORE_FULL, STORE_FAILED.
 *
 * @example
 * const store = await openIndexedDb({ name: "quayside" });
 */
export async function openIndexedDb({ name = "leeway" }: { readonly name?: string } = {}): Promise<Result<Store>> {
  try {
    if (globalThis.indexedDB === undefined) throw new DOMException("there is no IndexedDB", "InvalidStateError");
    return success(indexedDbStore(await connect(name)));
  } catch (error) {
    return failure(isStoreProblem(error) ? error.problem : indexedDbProblem(name, error));
  }
}

function indexedDbStore(database: Database): Store {
  /** A transaction that writes all or nothing, and is acknowledged when it is complete, not when its requests are. */
  const write = <Done>(work: (writing: Writing) => Promise<Done>): Promise<Done> =>
    database.run(async (connection) => {
      const writing = connection.transaction(WRITTEN, "readwrite", { durability: "strict" });
      const [done] = await Promise.all([aborting(writing, work), writing.done]);
      return done;
    });
  const entries = async (student: string | undefined): Promise<readonly JournalEntry[]> => {
    const rows = await database.run((connection) => connection.getAll("journals"));
    return rows
      .filter((row) => student === undefined || row.student === student)
      .map(entryOf)
      .sort(byName);
  };
  const store: Store = {
    place: `IndexedDB ${database.name}`,
    learnt: learntIn(database),
    async *journals({ student } = {}) {
      yield* await entries(student);
    },
    open: async (key) => {
      const row = await database.run((connection) => connection.get("journals", idOf(key)));
      return row && { ...entryOf(row), standing: standingOf(row) };
    },
    summaries: (of) => summariesByEvents(store, of),
    async *events(key) {
      const rows = await database.run((connection) => connection.getAll("events", rangeOf(key)));
      yield* rows.map(({ body }) => JSON.parse(body) as JournalEvent).sort(compareEvents);
    },
    append: async (key, events, revision) => {
      requireEvents(key, events);
      return write(async (writing) => {
        const row = await writing.objectStore("journals").get(idOf(key));
        const now = row?.revision ?? 0;
        const fresh = await freshOf(writing, events.map(rowOf));
        if (fresh.length === 0) return { outcome: "kept", revision: now, added: 0 };
        if (now !== revision) return { outcome: "overtaken", revision: now, added: 0 };
        const kept = await addEvents(writing, key, { row, fresh });
        return { outcome: "kept", revision: kept.revision, added: fresh.length };
      });
    },
    merge: async (key, values) => {
      const { events, problems } = checkEvents(key, values);
      const added = await write(async (writing) => {
        const row = await writing.objectStore("journals").get(idOf(key));
        const fresh = await freshOf(writing, events.map(rowOf));
        if (fresh.length > 0) await addEvents(writing, key, { row, fresh });
        return fresh.length;
      });
      return { added, known: events.length - added, problems };
    },
    erase: (student) =>
      write(async (writing) => {
        const theirs = IDBKeyRange.bound([student], [student, []]);
        const rows = await writing.objectStore("journals").getAll(theirs);
        for (const table of WRITTEN) await writing.objectStore(table).delete(theirs);
        const events = rows.reduce((sum, row) => sum + row.events, 0);
        const places = ELSEWHERE.map((key) => say(key));
        const elsewhere = places.map(({ says }) => says);
        const elsewhereMessages = places.map(({ message }) => message);
        return { journals: rows.length, events, elsewhere, elsewhereMessages };
      }),
    async *verify(key): AsyncIterable<Problem> {
      for (const each of key === undefined ? await entries(undefined) : [key])
        yield* await verifyJournal(database, each);
    },
    repair: (key) => write((writing) => repairJournal(writing, key)),
    keepCourse: (course) => database.run((connection) => keepCourse(connection, course)),
    course: async (curriculum, edition) =>
      database.run(async (connection) => (await textsOf(connection, { curriculum, edition })).at(-1)),
    courses: async (curriculum, edition) =>
      database.run(async (connection) => [...(await textsOf(connection, { curriculum, edition }))].reverse()),
    close: async () => database.close(),
  };
  return store;
}

/** Work that fails takes back what it wrote. */
async function aborting<Done>(writing: Writing, work: (writing: Writing) => Promise<Done>): Promise<Done> {
  try {
    return await work(writing);
  } catch (error) {
    // The rejection of `done` would only say that it was aborted.
    writing.done.catch(() => undefined);
    try {
      writing.abort();
    } catch {
      // The transaction is over by itself, as when there is no room.
    }
    throw writing.error ?? error;
  }
}

async function keepCourse(connection: Connection, course: CourseText): Promise<"kept" | "known" | "replaced"> {
  const writing = connection.transaction("courses", "readwrite", { durability: "strict" });
  const last = (await writing.store.index("byEdition").getAll([course.curriculum, course.edition])).at(-1);
  if (last === undefined || !sameCourse(last, course)) await writing.store.add({ ...course });
  await writing.done;
  return last === undefined ? "kept" : sameCourse(last, course) ? "known" : "replaced";
}

function textsOf(
  connection: Connection,
  { curriculum, edition }: Pick<CourseRow, "curriculum" | "edition">,
): Promise<CourseText[]> {
  return connection.getAllFromIndex("courses", "byEdition", [curriculum, edition]);
}

function idOf({ student, curriculum }: JournalKey): [string, string] {
  return [student, curriculum];
}

function entryOf({ student, curriculum, edition, events, revision }: JournalRow): JournalEntry {
  return { student, curriculum, edition, events, revision };
}

function standingOf({ standing }: JournalRow): Standing | undefined {
  return standing === undefined ? undefined : (JSON.parse(standing) as Standing);
}
