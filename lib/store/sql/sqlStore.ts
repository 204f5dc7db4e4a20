import { storeProblem } from "../codes.js";
import type { Store } from "../model.js";
import { sayProblem } from "../say.js";
import { course, courses, keepCourse } from "./courses.js";
import type { Database } from "./database.js";
import { erase } from "./erase.js";
import { holdLately } from "./lately.js";
import { keepLearnt, readLearnt } from "./learntRows.js";
import { journals, openLately } from "./read.js";
import { eventPages, eventsInOrder } from "./readEvents.js";
import { sqlRegister } from "./register.js";
import { retry } from "./retry.js";
import { summaries } from "./summaryRows.js";
import { repair, verifyJournal } from "./verify.js";
import { append, merge } from "./write.js";

/** The store in a database. Its tables must be migrated. */
export function sqlStore(database: Database): Store {
  const run = <T>(work: () => Promise<T>): Promise<T> => retry(database, work);
  const lately = holdLately();
  return {
    place: database.place,
    register: sqlRegister(database),
    learnt: {
      read: (key) => run(() => readLearnt(database, key)),
      keep: (key, learnt) => run(() => keepLearnt(database, key, learnt)),
    },
    journals: ({ student } = {}) => journals(database, student),
    open: (key) => run(() => openLately(database, lately, key)),
    summaries: (of) => run(() => summaries(database, of)),
    events: (key) => guarded(database, eventsInOrder(eventPages(database.db, key))),
    append: (key, events, revision) => run(async () => append({ database, lately }, key, { events, revision })),
    merge: (key, events) => run(async () => merge(database, key, events)),
    erase: (student) => {
      lately.forget(student);
      return erase(database, student);
    },
    async *verify(key) {
      for (const said of await run(() => database.inspect()))
        yield storeProblem("STORE_DAMAGED", sayProblem("store-problem.store-inspected", { said }));
      const keys = key === undefined ? journals(database, undefined) : [key];
      for await (const each of keys) yield* guarded(database, verifyJournal(database, each));
    },
    repair: (key) => run(() => repair(database, key)),
    keepCourse: (given) => run(() => keepCourse(database, given)),
    course: (curriculum, edition) => run(() => course(database, curriculum, edition)),
    courses: (curriculum, edition) => run(() => courses(database, curriculum, edition)),
    close: () => database.close(),
  };
}

/** The same values; errors of the database become store failures. */
async function* guarded<T>(database: Database, values: AsyncIterable<T>): AsyncIterable<T> {
  const iterator = values[Symbol.asyncIterator]();
  // A repeated step would skip a value, so nothing is retried here.
  const impatient = { ...database, patience: 0 };
  try {
    for (;;) {
      const { value, done } = await retry(impatient, () => iterator.next());
      if (done) return;
      yield value;
    }
  } finally {
    await iterator.return?.();
  }
}
