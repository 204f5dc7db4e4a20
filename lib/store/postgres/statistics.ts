import { type Kysely, type RawBuilder, sql } from "kysely";
import { STUDENT_TABLES, type Tables } from "../sql/tables.js";
import { codeOf } from "./problems.js";
import { relations } from "./relations.js";

/** SQLSTATE 0A000, feature_not_supported: what PostgreSQL says when a view, a rule or a policy uses a column (from memory). */
const USED_ELSEWHERE = "0A000";

/** Where the tables are, and how long a lock on them is waited for, in milliseconds. */
export interface TablesAt {
  readonly schema?: string | undefined;
  readonly patience: number;
}

/**
 * Tells the server to keep no statistics of the tables about students, now and whenever it analyses them by itself: names, takes and
 * events of less than a kilobyte would be among them, in a table nobody but the server's administrators clears. Every statement finds its
 * rows by the beginning of a key, for which the planner needs none. Nothing is done where that was said already, in a store
 * that may only be read, and for users who do not own the tables.
 */
export async function forbidStatistics(db: Kysely<Tables>, { schema, patience }: TablesAt): Promise<void> {
  const students = relations(STUDENT_TABLES, schema);
  // The target is null from PostgreSQL 17 on, and -1 before, as long as nobody has set it.
  const { rows } = await sql<{ found: string; columns: readonly string[] }>`
    select c.oid::regclass::text as found, array_agg(quote_ident(a.attname)) as columns
    from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
    where c.oid in ${students} and coalesce(a.attstattarget, -1) <> 0
      and pg_has_role(c.relowner, 'usage') and current_setting('transaction_read_only') = 'off'
    group by c.oid`.execute(db);
  for (const { found, columns } of rows)
    await alter(db, {
      table: found,
      settings: columns.map((column) => `alter column ${column} set statistics 0`),
      patience,
    });
}

/**
 * Removes statistics that were made of the tables about students before they were forbidden, of their columns, of expressions in indexes
 * and of several columns together; gives whether none are left. Views, rules or policies that use the tables stand in the way.
 */
export async function clearStatistics(db: Kysely<Tables>, { schema, patience }: TablesAt): Promise<boolean> {
  const students = relations(STUDENT_TABLES, schema);
  if (!(await hasStatistics(db, students))) return true;
  // Nobody but an administrator may delete statistics, but the server drops those of a column whose type is set, even to what it is.
  const { rows } = await sql<{ found: string; settings: readonly string[] }>`
    select a.attrelid::regclass::text as found, array_agg(
      'alter column ' || quote_ident(a.attname) || ' type ' || format_type(a.atttypid, a.atttypmod)
      || coalesce(' collate ' || quote_ident(n.nspname) || '.' || quote_ident(l.collname), '')) as settings
    from pg_attribute a left join pg_collation l on l.oid = a.attcollation left join pg_namespace n on n.oid = l.collnamespace
    where a.attrelid in ${students} and a.attnum > 0 and not a.attisdropped
    group by a.attrelid`.execute(db);
  for (const { found, settings } of rows) {
    try {
      await alter(db, { table: found, settings, patience });
    } catch (error) {
      if (codeOf(error) !== USED_ELSEWHERE) throw error;
    }
  }
  return !(await hasStatistics(db, students));
}

/** Changes a table in a transaction of its own, in which its lock is waited for no longer than is asked. */
function alter(
  db: Kysely<Tables>,
  {
    table,
    settings,
    patience,
  }: { readonly table: string; readonly settings: readonly string[]; readonly patience: number },
): Promise<unknown> {
  return db.transaction().execute(async (trx) => {
    await sql`select set_config('lock_timeout', ${`${Math.max(1, patience)}ms`}, true)`.execute(trx);
    await sql.raw(`alter table ${table} ${settings.join(", ")}`).execute(trx);
  });
}

/** What is kept of the tables' columns and of expressions in their indexes, and of several columns that somebody had analysed together. */
async function hasStatistics(db: Kysely<Tables>, students: RawBuilder<unknown>): Promise<boolean> {
  const { rows } = await sql<{ found: boolean }>`
    select exists (
      select from pg_class c join pg_namespace n on n.oid = c.relnamespace
      join pg_stats s on s.schemaname = n.nspname and s.tablename = c.relname
      where c.oid in ${students} or c.oid in (select indexrelid from pg_index where indrelid in ${students})
    ) or exists (
      select from pg_statistic_ext e join pg_namespace n on n.oid = e.stxnamespace
      join pg_stats_ext s on s.statistics_schemaname = n.nspname and s.statistics_name = e.stxname
      where e.stxrelid in ${students}
    ) as found`.execute(db);
  return rows[0]!.found;
}
