import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Take } from "../../../schema/index.js";

/** A take on its way to the school. */
export interface Posted {
  /** Id of the take. */
  readonly id: string;
  readonly student: string;
  /** Name of the course. */
  readonly course: string;
  /** Whether it was to find the student's rung. */
  readonly placing: boolean;
  readonly take: Take;
  /** Why the school does not take it; absent while it waits. */
  readonly refused?: string;
}

/** Takes that are not at the school yet, in the order in which they were played. */
export interface Outbox {
  all(): Promise<readonly Posted[]>;
  put(posted: Posted): Promise<void>;
  remove(id: string): Promise<void>;
}

interface Tables extends DBSchema {
  takes: { key: number; value: Posted; indexes: { byId: string } };
}

/** The takes on this device. Where the browser has no database they are held until the window is closed. */
export async function openOutbox(): Promise<Outbox> {
  try {
    return keptOutbox(
      await openDB<Tables>("leeway-outbox", 1, {
        upgrade: (db) => {
          db.createObjectStore("takes", { autoIncrement: true }).createIndex("byId", "id", { unique: true });
        },
      }),
    );
  } catch {
    return heldOutbox();
  }
}

function keptOutbox(db: IDBPDatabase<Tables>): Outbox {
  return {
    all: () => db.getAll("takes"),
    put: async (posted) => {
      const writing = db.transaction("takes", "readwrite");
      const key = await writing.store.index("byId").getKey(posted.id);
      await writing.store.put(posted, key);
      await writing.done;
    },
    remove: async (id) => {
      const writing = db.transaction("takes", "readwrite");
      const key = await writing.store.index("byId").getKey(id);
      if (key !== undefined) await writing.store.delete(key);
      await writing.done;
    },
  };
}

function heldOutbox(): Outbox {
  const held = new Map<string, Posted>();
  return {
    all: async () => [...held.values()],
    put: async (posted) => void held.set(posted.id, posted),
    remove: async (id) => void held.delete(id),
  };
}
