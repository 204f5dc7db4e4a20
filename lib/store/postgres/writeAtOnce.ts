import { type Kysely, type RawBuilder, sql } from "kysely";
import type { Database } from "../sql/database.js";
import { restsOn } from "../sql/lately.js";
import type { DrillRow, EventRow, JournalRow, JournalWrite, RungRow, SummaryRow, Tables } from "../sql/tables.js";

/**
 * Makes the transaction at hand durable once it is answered, whatever the default of the server: it lasts for this transaction alone, so that connections can be
 * shared. A server that waits for its replicas goes on waiting for them.
 */
export const durable: RawBuilder<unknown> = sql`select set_config('synchronous_commit',
  case current_setting('synchronous_commit') when 'off' then 'on' else current_setting('synchronous_commit') end, true)`;

/**
 * Writes all of an append by one statement, and so in one transaction and one round trip: first the journal's row, which is locked and compared, and the rest only
 * where that was as expected (PostgreSQL manual, 7.8.4, data-modifying statements in WITH).
 */
export async function writeAtOnce(
  db: Kysely<Tables>,
  tableNamed: Database["tableNamed"],
  { before, after, events, drills, rungs, summary }: JournalWrite,
): Promise<boolean> {
  const ids = events.map(({ id }) => id);
  const own = { student: after.student, curriculum: after.curriculum };
  const claimed =
    before === undefined
      ? sql`insert into ${tableNamed("leeway_journals")} (${columns(JOURNAL)})
          select ${sql.join(JOURNAL.map((name) => typed(name, after[name])))} from durable
          on conflict (student, curriculum) do nothing returning student, curriculum`
      : sql`update ${tableNamed("leeway_journals")} as j set ${sql.join(CHANGED.map((name) => sql`${sql.id(name)} = ${after[name]}`))}
          from durable where j.student = ${own.student} and j.curriculum = ${own.curriculum} and ${restsOn(before)}
          and not exists (select from ${tableNamed("leeway_events")} as e
            where e.student = j.student and e.curriculum = j.curriculum and e.id = any(${ids}::text[]))
          returning j.student, j.curriculum`;
  const { rows } = await sql<{ claimed: number }>`with durable as materialized (${durable}), claimed as (${claimed}),
    kept_events as (insert into ${tableNamed("leeway_events")} (student, curriculum, ${columns(EVENT)})
      select claimed.*, given.* from claimed, unnest(${listsOf(events, EVENT)}) as given),
    kept_drills as (insert into ${tableNamed("leeway_drills")} (student, curriculum, ${columns(DRILL)})
      select claimed.*, given.* from claimed, unnest(${listsOf(drills, DRILL)}) as given
      on conflict (student, curriculum, place) do update set drill = excluded.drill, head = excluded.head),
    kept_rungs as (insert into ${tableNamed("leeway_rungs")} (student, curriculum, ${columns(RUNG)})
      select claimed.*, given.* from claimed, unnest(${listsOf(rungs, RUNG)}) as given
      on conflict (student, curriculum, place, rung, number) do update set body = excluded.body),
    kept_summary as (insert into ${tableNamed("leeway_summaries")} (student, curriculum, ${columns(PART)})
      select claimed.*, given.* from claimed, unnest(${listsOf(summary, PART)}) as given
      on conflict (student, curriculum, part) do update set body = excluded.body)
    select count(*)::integer as claimed from claimed`.execute(db);
  return rows[0]!.claimed === 1;
}

const EVENT = ["turn", "digest", "id", "body"] as const satisfies readonly (keyof EventRow)[];
const DRILL = ["place", "drill", "head"] as const satisfies readonly (keyof DrillRow)[];
const RUNG = ["place", "rung", "number", "body"] as const satisfies readonly (keyof RungRow)[];
const PART = ["part", "body"] as const satisfies readonly (keyof SummaryRow)[];
const CHANGED = [
  ...(["revision", "events", "last_turn", "last_at", "last_id", "edition", "latest", "counted"] as const),
] as const satisfies readonly (keyof JournalRow)[];
const JOURNAL = ["student", "curriculum", ...CHANGED] as const;

function columns(names: readonly string[]): RawBuilder<unknown> {
  return sql.join(names.map((name) => sql.id(name)));
}

/** Columns of numbers; all others are text. */
const NUMBERS: ReadonlySet<string> = new Set([
  "turn",
  "place",
  "rung",
  "number",
  "revision",
  "events",
  "last_turn",
  "counted",
]);

/** A value with its type, which nothing else says where it is selected. */
function typed(name: string, value: unknown): RawBuilder<unknown> {
  return sql`${value}::${sql.raw(NUMBERS.has(name) ? "integer" : "text")}`;
}

/** A list for each column, so that the text of the statement is the same for any number of rows. */
function listsOf<Name extends string>(
  rows: readonly Readonly<Record<Name, unknown>>[],
  names: readonly Name[],
): RawBuilder<unknown> {
  return sql.join(
    names.map((name) => sql`${rows.map((row) => row[name])}::${sql.raw(NUMBERS.has(name) ? "integer[]" : "text[]")}`),
  );
}
