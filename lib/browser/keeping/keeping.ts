import type { Result } from "../../base/index.js";
import type { Keeping } from "./model.js";

/**
 * Whether what is here stays, without asking anybody. `store` is what opening a store gave: one that did not open keeps nothing.
 *
 * @example
 * (await keepingNow()).state // "promised", "best effort" or "not kept"
 */
export async function keepingNow(store?: Result<unknown>): Promise<Keeping> {
  const storage = globalThis.navigator?.storage as StorageManager | undefined;
  if (store?.ok === false || globalThis.indexedDB === undefined) return { state: "not kept" };
  const isPromised = (await storage?.persisted?.().catch(() => false)) === true;
  const { usage, quota } = (await storage?.estimate?.().catch(() => ({}) as StorageEstimate)) ?? {};
  return {
    state: isPromised ? "promised" : "best effort",
    ...(usage === undefined ? {} : { used: usage }),
    ...(quota === undefined ? {} : { room: quota }),
  };
}

/**
 * Asks the browser to keep what is here; some browsers ask the person, others decide by how often the page is used. Gives what came of it.
 *
 * @example
 * (await askToKeep()).state // "promised" when it agrees
 */
export async function askToKeep(store?: Result<unknown>): Promise<Keeping> {
  if (store?.ok !== false) await globalThis.navigator?.storage?.persist?.().catch(() => false);
  return keepingNow(store);
}
