export type { Validator } from "./checked.js";
export { checked } from "./checked.js";
export { schemaCodes } from "./codes.js";
export * from "./generated/index.js";
export { pathOf, pointerTo } from "./pointer.js";
export type { SchemaCode } from "./problem.js";
