export type { Batch, BatchFormat, BatchProgress, FileRecord } from "./model.js";
export { openSoundBank } from "./openSoundBank.js";
export { RECORD, sha256 } from "./record.js";
export { type BatchOptions, renderBatch } from "./renderBatch.js";
export { makeFolder, writeWhole } from "./writeWhole.js";
