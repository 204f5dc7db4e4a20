import { type RawBuilder, sql } from "kysely";

/** Tables of these names in a schema, or where the search path finds them, as a list of the numbers the server knows them by, for `in`; names that are not there are left out. */
export function relations(names: readonly string[], schema?: string): RawBuilder<unknown> {
  const given = sql`unnest(${[...names]}::text[]) as name`;
  return schema === undefined
    ? sql`(select to_regclass(name)::oid from ${given})`
    : sql`(select to_regclass(quote_ident(${schema}) || '.' || quote_ident(name))::oid from ${given})`;
}
