import type { JournalEvent } from "../../../schema/index.js";
import { type JournalKey, memoryStore, type Store } from "../../../store/index.js";
import { type EventShelf, openEventShelf } from "./eventShelf.js";
import { shelfProblem } from "./shelfProblem.js";

/** The store of this device, and whether what is in it stays. */
export interface PageStore {
  readonly store: Store;
  kept(): Promise<"promised" | "best effort" | "not kept">;
}

/**
 * The journals of this device: in memory, and each event on the disk before a method of the store resolves. Where the browser has no database, what
 * is played is there until the window is closed.
 */
export async function openPageStore(): Promise<PageStore> {
  const shelf = await openEventShelf().catch(() => undefined);
  const memory = memoryStore();
  if (shelf === undefined) return { store: memory, kept: async () => "not kept" };
  const journals = new Map<string, { key: JournalKey; events: JournalEvent[] }>();
  for (const event of await shelf.all()) {
    const key = { student: event.student, curriculum: event.curriculum };
    const name = JSON.stringify([key.student, key.curriculum]);
    const journal = journals.get(name) ?? { key, events: [] };
    journal.events.push(event);
    journals.set(name, journal);
  }
  for (const { key, events } of journals.values()) await memory.merge(key, events);
  return {
    store: onShelf(memory, shelf),
    kept: async () => ((await navigator.storage?.persisted?.()) === true ? "promised" : "best effort"),
  };
}

function onShelf(memory: Store, shelf: EventShelf): Store {
  const kept = async (done: Promise<void>): Promise<void> => {
    try {
      await done;
    } catch (error) {
      throw shelfProblem(error);
    }
  };
  return {
    ...memory,
    place: "this device",
    append: async (key, events, revision) => {
      const appended = await memory.append(key, events, revision);
      // A call that is repeated, as the disk refused the first, finds its events in memory and puts them on the disk now.
      if (appended.outcome === "kept") await kept(shelf.put(key, events));
      return appended;
    },
    merge: async (key, events) => {
      const merged = await memory.merge(key, events);
      const all: JournalEvent[] = [];
      for await (const event of memory.events(key)) all.push(event);
      await kept(shelf.put(key, all));
      return merged;
    },
    erase: async (student) => {
      await kept(shelf.erase(student));
      return memory.erase(student);
    },
  };
}
