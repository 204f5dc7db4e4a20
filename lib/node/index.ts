export { runConcurrently } from "./batch/concurrentTasks.js";
export { RECORD, readRecord, sha256 } from "./batch/fileRecord.js";
export type { Batch, BatchFormat, BatchProgress, FileRecord } from "./batch/model.js";
export { openSoundBank } from "./batch/openSoundBank.js";
export { type BatchOptions, renderBatch } from "./batch/renderBatch.js";
export { nodeCodes } from "./codes.js";
export { encodeFilm, type FilmFormat, type FilmParts, filmsHere } from "./encoding/encodeFilm.js";
export type { NodeCode } from "./problem.js";
export { checkRecordings } from "./recording/checkRecordings.js";
export { type ReadyOptions, readyRecordings } from "./recording/readyRecordings.js";
export { recordingFacts } from "./recording/recordingFacts.js";
export {
  type CourseToRehearse,
  type RehearsingOptions,
  type RehearsingProgress,
  rehearseCourses,
} from "./rehearsal/rehearseCourses.js";
export { contentType, type Serving, serveFiles } from "./serveFiles.js";
export { openSoundFile, type SoundFile, type SoundFileOptions } from "./soundFile/openSoundFile.js";
export { makeFolder, removeUnfinished, writeIfOther, writeWhole } from "./writeWhole.js";
export { MOST_ZIPPED, unzipped, type ZipEntry, zipped } from "./zip.js";
