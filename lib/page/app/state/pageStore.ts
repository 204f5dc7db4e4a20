import { memoryStore, type Store } from "../../../store/index.js";

/** The store of this device, and whether what is in it stays. */
export interface PageStore {
  readonly store: Store;
  kept(): Promise<"promised" | "best effort" | "not kept">;
}

export async function openPageStore(): Promise<PageStore> {
  return { store: memoryStore(), kept: async () => "not kept" };
}
