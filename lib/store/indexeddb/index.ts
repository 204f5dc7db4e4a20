/// <reference lib="dom" />
export { openIndexedDb } from "./openIndexedDb.js";
