export type { PostgresOptions } from "./openPostgres.js";
export { openPostgres } from "./openPostgres.js";
export type { GivenConnection, GivenPool } from "./pool.js";
