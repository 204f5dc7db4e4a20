export { recordCodes } from "./codes.js";
export type { Naming } from "./identity.js";
export type { Activity, Extensions, LanguageMap, Statement } from "./model.js";
export type { RecordOptions, Records } from "./openRecords.js";
export { openRecords } from "./openRecords.js";
export type { RecordCode } from "./problem.js";
export type { Recorded, StatementOptions } from "./statementsOf.js";
export { statementsOf } from "./statementsOf.js";
export { uuidOf } from "./uuid.js";
