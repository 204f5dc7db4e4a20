import { askToKeep, type Keeping, keepingNow } from "../../../browser/index.js";
import { memoryStore, type Store } from "../../../store/index.js";
import { openIndexedDb } from "../../../store/indexeddb/index.js";

/** The store of this device, and whether what is in it stays. */
export interface PageStore {
  readonly store: Store;
  kept(): Promise<Keeping["state"]>;
  /** Asks the browser to keep what is here. */
  askToKeep(): Promise<Keeping["state"]>;
}

/** The journals of this device. Where the browser has no database, what is played is there until the window is closed. */
export async function openPageStore(): Promise<PageStore> {
  const opened = await openIndexedDb();
  return {
    store: opened.ok ? opened.value : memoryStore(),
    kept: async () => (await keepingNow(opened)).state,
    askToKeep: async () => (await askToKeep(opened)).state,
  };
}
