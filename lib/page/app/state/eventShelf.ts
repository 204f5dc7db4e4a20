import type { JournalEvent } from "../../../schema/index.js";
import type { JournalKey } from "../../../store/index.js";

/** A database of events, each under the student, the course and its id. */
export interface EventShelf {
  /** All events, in no order. */
  all(): Promise<readonly JournalEvent[]>;
  /** Keeps events; resolves when the database says that the whole transaction is complete. */
  put(key: JournalKey, events: readonly JournalEvent[]): Promise<void>;
  /** Deletes all events of a student. */
  erase(student: string): Promise<void>;
}

const NAME = "leeway";
const EVENTS = "events";

/** Opens the database of this origin. Rejects where the browser has none, as in some private windows. */
export async function openEventShelf(): Promise<EventShelf> {
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open(NAME, 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore(EVENTS);
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
    opening.onblocked = () => reject(new Error("another version of this page holds the database"));
  });
  // A newer version of the page may want to change it.
  database.onversionchange = () => database.close();
  const change = (act: (events: IDBObjectStore) => void): Promise<void> =>
    new Promise((resolve, reject) => {
      const transaction = database.transaction(EVENTS, "readwrite", { durability: "strict" });
      // Not the success of a request, but the end of the transaction: only then is it on the disk.
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error);
      transaction.onerror = () => reject(transaction.error);
      act(transaction.objectStore(EVENTS));
    });
  return {
    all: () =>
      new Promise((resolve, reject) => {
        const request = database.transaction(EVENTS).objectStore(EVENTS).getAll();
        request.onsuccess = () => resolve(request.result as JournalEvent[]);
        request.onerror = () => reject(request.error);
      }),
    put: ({ student, curriculum }, events) =>
      change((shelf) => {
        for (const event of events) shelf.put(event, [student, curriculum, event.id]);
      }),
    erase: (student) => change((shelf) => void shelf.delete(IDBKeyRange.bound([student], [student, []]))),
  };
}
