export type { SqliteOptions } from "./connection.js";
export { openSqlite } from "./openSqlite.js";
