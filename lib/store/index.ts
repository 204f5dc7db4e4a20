export { type StoreFault, storeCodes } from "./codes.js";
export { eventsOf } from "./eventsOf.js";
export type { StoreProblem } from "./failure.js";
export { isStoreProblem } from "./failure.js";
export { memoryStore } from "./memory/memoryStore.js";
export type {
  Appended,
  CourseText,
  Erasure,
  JournalEntry,
  JournalKey,
  KeptSummary,
  Learnt,
  LearntStore,
  Merged,
  OpenJournal,
  Store,
} from "./model.js";
export type { StoreCode } from "./problem.js";
export { record } from "./record.js";
export type {
  Acceptance,
  AccessKey,
  Invitation,
  MembersAsked,
  Person,
  Register,
  Role,
  SchoolClass,
} from "./register/model.js";
export type { Imported, ReadLine } from "./transfer.js";
export { exportJournals, importJournals } from "./transfer.js";
