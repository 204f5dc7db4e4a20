import { problemsOf } from "../base/index.js";

/** Problems with stores: their place, their work, and their contents. */
export const storeCodes = {
  STORE_NOT_FOUND: "error",
  STORE_PLACE_UNUSABLE: "error",
  STORE_DRIVER_MISSING: "error",
  STORE_FOREIGN: "error",
  STORE_VERSION_NEWER: "error",
  STORE_VERSION_OLDER: "error",
  STORE_READ_ONLY: "error",
  STORE_FULL: "error",
  STORE_BUSY: "error",
  STORE_ADDRESS_UNREADABLE: "error",
  STORE_UNREACHABLE: "error",
  STORE_DAMAGED: "error",
  STORE_FAILED: "error",
  EVENT_ALTERED: "error",
  EVENTS_MISSING: "error",
  STANDING_STALE: "error",
} as const;

/** The code of a fault of a store. */
export type StoreFault = keyof typeof storeCodes;

export const storeProblem: ReturnType<typeof problemsOf<typeof storeCodes>> = problemsOf(storeCodes);
