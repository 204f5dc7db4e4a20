import { problemsOf } from "../base/index.js";

/** Problems with stores: their place, their work, and their contents. */
export const storeCodes = {
  STORE_NOT_FOUND: { severity: "error", means: "There is no store at this place yet." },
  STORE_PLACE_UNUSABLE: {
    severity: "error",
    means: "No store can be at this place: a folder, a missing folder, no permission.",
  },
  STORE_DRIVER_MISSING: { severity: "error", means: "The package that reads this sort of store is not installed." },
  STORE_FOREIGN: {
    severity: "error",
    means: "The file is no store: no database at all, or the database of another program.",
  },
  STORE_VERSION_NEWER: { severity: "error", means: "The store was written by a newer version of leeway." },
  STORE_READ_ONLY: { severity: "error", means: "The store may be read but not written." },
  STORE_FULL: { severity: "error", means: "There is no room left for what should be kept; nothing of it was." },
  STORE_BUSY: { severity: "error", means: "Others used the store for so long that this had to be given up." },
  STORE_ADDRESS_UNREADABLE: {
    severity: "error",
    means: "The address of a database is not one, or a sign in it that divides addresses is not escaped.",
  },
  STORE_UNREACHABLE: { severity: "error", means: "The database server does not answer or does not let us in." },
  STORE_DAMAGED: { severity: "error", means: "The file or the database is damaged below the level of journals." },
  STORE_FAILED: { severity: "error", means: "The database refused for a reason of its own." },
  EVENT_ALTERED: { severity: "error", means: "A kept event is not what was written: it was changed or damaged since." },
  EVENTS_MISSING: { severity: "error", means: "A journal has more or fewer events than were written to it." },
  STANDING_STALE: { severity: "error", means: "The standing kept beside a journal is not what its events amount to." },
} as const;

/** The code of a fault of a store. */
export type StoreFault = keyof typeof storeCodes;

export const storeProblem: ReturnType<typeof problemsOf<typeof storeCodes>> = problemsOf(storeCodes);
