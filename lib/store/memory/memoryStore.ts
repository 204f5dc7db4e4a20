import { canonicalJson, compareEvents, fold } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import { byName } from "../byName.js";
import { checkEvents, requireEvents } from "../checkEvents.js";
import type { CourseText, JournalEntry, JournalKey, Merged, OpenJournal, Store } from "../model.js";
import { orderEvents } from "../orderEvents.js";
import type { Problem } from "../problem.js";
import { sameCourse } from "../sameCourse.js";
import { summariesByEvents } from "../summariesByEvents.js";

/** A journal in memory: the events in order, their canonical texts and ids, and the standing. */
interface Kept {
  readonly key: JournalKey;
  readonly texts: Set<string>;
  readonly ids: Set<string>;
  events: JournalEvent[];
  standing: Standing | undefined;
  revision: number;
}

/**
 * A store in memory, for tests, trials and apps that keep journals themselves. It ends with the program, and its methods never fail.
 *
 * @example
 * (await memoryStore().open({ student: "tern", curriculum: "quay" })) === undefined // true
 */
export function memoryStore(): Store {
  const journals = new Map<string, Kept>();
  const courses: CourseText[] = [];
  const find = (key: JournalKey): Kept | undefined => journals.get(nameOf(key));
  const store: Store = {
    place: "memory",
    async *journals({ student } = {}) {
      const all = [...journals.values()].filter((kept) => student === undefined || kept.key.student === student);
      yield* all.map(entryOf).sort(byName);
    },
    open: async (key) => {
      const kept = find(key);
      return kept === undefined ? undefined : opened(kept);
    },
    summaries: (of) => summariesByEvents(store, of),
    async *events(key) {
      yield* [...(find(key)?.events ?? [])];
    },
    append: async (key, events, revision) => {
      requireEvents(key, events);
      const kept = find(key);
      const now = kept?.revision ?? 0;
      const isRepeated = events.every((event) => kept?.texts.has(canonicalJson(event)));
      if (isRepeated) return { outcome: "kept", revision: now, added: 0 };
      if (now !== revision) return { outcome: "overtaken", revision: now, added: 0 };
      const added = add(journals, key, events);
      return { outcome: "kept", revision: now + 1, added };
    },
    merge: async (key, values): Promise<Merged> => {
      const { events, problems } = checkEvents(key, values);
      const added = add(journals, key, events);
      return { added, known: events.length - added, problems };
    },
    erase: async (student) => {
      const theirs = [...journals.values()].filter(({ key }) => key.student === student);
      for (const { key } of theirs) journals.delete(nameOf(key));
      const events = theirs.reduce((sum, kept) => sum + kept.events.length, 0);
      return { journals: theirs.length, events, elsewhere: [], elsewhereMessages: [] };
    },
    async *verify(): AsyncIterable<Problem> {},
    repair: async () => 0,
    keepCourse: async (course) => {
      const last = lastOf(courses, course.curriculum, course.edition);
      if (last !== undefined && sameCourse(last, course)) return "known";
      courses.push(structuredClone(course));
      return last === undefined ? "kept" : "replaced";
    },
    course: async (curriculum, edition) => lastOf(courses, curriculum, edition),
    courses: async (curriculum, edition) =>
      courses.filter((each) => each.curriculum === curriculum && each.edition === edition).reverse(),
    close: async () => undefined,
  };
  return store;
}

function add(journals: Map<string, Kept>, key: JournalKey, given: readonly JournalEvent[]): number {
  const kept = journals.get(nameOf(key)) ?? emptyJournal(key);
  const fresh = new Map<string, JournalEvent>();
  for (const event of given) {
    const text = canonicalJson(event);
    // A copy, so that later changes of the event by the caller do not reach the journal.
    if (!kept.texts.has(text)) fresh.set(text, JSON.parse(text) as JournalEvent);
  }
  if (fresh.size === 0) return 0;
  const { events, follows } = orderEvents([...fresh.values()], kept.events.at(-1), (id) => kept.ids.has(id));
  const goesOn = follows && kept.standing !== undefined;
  if (follows) for (const event of events) kept.events.push(event);
  else kept.events = [...kept.events, ...events].sort(compareEvents);
  kept.standing = goesOn
    ? fold(events, { after: kept.standing! }).standing
    : fold(kept.events, { of: kept.key }).standing;
  for (const text of fresh.keys()) kept.texts.add(text);
  for (const { id } of events) kept.ids.add(id);
  kept.revision++;
  journals.set(nameOf(key), kept);
  return fresh.size;
}

function emptyJournal({ student, curriculum }: JournalKey): Kept {
  const key = { student, curriculum };
  return { key, texts: new Set(), ids: new Set(), events: [], standing: undefined, revision: 0 };
}

function entryOf({ key, events, standing, revision }: Kept): JournalEntry {
  return { ...key, edition: standing?.edition, events: events.length, revision };
}

function opened(kept: Kept): OpenJournal {
  return { ...entryOf(kept), standing: kept.standing };
}

function nameOf({ student, curriculum }: JournalKey): string {
  return JSON.stringify([student, curriculum]);
}

function lastOf(courses: readonly CourseText[], curriculum: string, edition: string): CourseText | undefined {
  return courses.findLast((each) => each.curriculum === curriculum && each.edition === edition);
}
