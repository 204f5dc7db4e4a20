import { join } from "node:path";
import { memoryStore, type Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { valueIn } from "./valueIn.js";

/** What a program that died would have thrown, had it been able to. */
export class Crash extends Error {}

/** A device's way to a store: the program behind it dies at the next write when told to, and can be started again. */
export interface Door {
  readonly store: Store;
  /** The next write dies before it has begun, or when it is done and nobody was told. */
  dieAt(moment: "before" | "after"): void;
  /** Nothing dies any more; gives whether something still was to. */
  calm(): boolean;
  restart(): Promise<void>;
  close(): Promise<void>;
}

/** The same store, whose writer dies where it is told to. */
function mortal(open: () => Store, death: { at?: "before" | "after" | undefined }): Store {
  const dying = async <T>(write: () => Promise<T>): Promise<T> => {
    const at = death.at;
    death.at = undefined;
    if (at === "before") throw new Crash("before the write");
    const answer = await write();
    if (at === "after") throw new Crash("after the write");
    return answer;
  };
  return new Proxy({} as Store, {
    get(_, name: keyof Store) {
      const store = open();
      if (name === "append") return (...words: Parameters<Store["append"]>) => dying(() => store.append(...words));
      if (name === "merge") return (...words: Parameters<Store["merge"]>) => dying(() => store.merge(...words));
      const held = store[name];
      return typeof held === "function" ? held.bind(store) : held;
    },
  });
}

function doorTo(open: () => Store, again: Pick<Door, "restart" | "close">): Door {
  const death: { at?: "before" | "after" | undefined } = {};
  return {
    store: mortal(open, death),
    dieAt: (moment) => {
      death.at = moment;
    },
    calm: () => {
      const was = death.at !== undefined;
      death.at = undefined;
      return was;
    },
    ...again,
  };
}

/** Doors to one store in memory, which outlives the programs that use it as a server does. */
export function memoryDoors(count: number): readonly Door[] {
  const store = memoryStore();
  const again = { restart: async () => undefined, close: async () => undefined };
  return Array.from({ length: count }, () => doorTo(() => store, again));
}

/** Doors to one file, each with a connection of its own that is lost when its program dies. */
export async function fileDoors(
  folder: string,
  { name, count }: { name: string; count: number },
): Promise<readonly Door[]> {
  const path = join(folder, `${name}.sqlite`);
  const doors: Door[] = [];
  for (let i = 0; i < count; i++) {
    let now = valueIn(await openSqlite(path, { create: true }));
    const restart = async (): Promise<void> => {
      await now.close();
      now = valueIn(await openSqlite(path, { create: false }));
    };
    doors.push(doorTo(() => now, { restart, close: () => now.close() }));
  }
  return doors;
}
