export { curriculumCodes } from "./codes.js";
export type { Carried, DrillChange, EditionChanges, Loss } from "./editions.js";
export { carriedTo, compareEditions } from "./editions.js";
export type { ReadFile } from "./files.js";
export type { Curriculum } from "./model.js";
export type { ReadOptions } from "./read.js";
export { readCurriculum } from "./read.js";
