export type { PostgresOptions } from "./openPostgres.js";
export { openPostgres } from "./openPostgres.js";
