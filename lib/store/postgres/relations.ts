import { type RawBuilder, sql } from "kysely";

/** Tables of these names, as a list of the numbers the server knows them by, for `in`; names that are not there are left out. */
export function relations(names: readonly string[]): RawBuilder<unknown> {
  return sql`(select to_regclass(name)::oid from unnest(${[...names]}::text[]) as name)`;
}
