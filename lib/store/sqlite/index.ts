export type { SqliteOptions } from "./openSqlite.js";
export { openSqlite } from "./openSqlite.js";
