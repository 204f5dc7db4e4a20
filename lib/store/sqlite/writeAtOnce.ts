import type { SqliteDatabase } from "kysely";
import type { JournalRow, JournalWrite } from "../sql/tables.js";

/**
 * Writes all of an append in one transaction on a connection that nobody else has meanwhile: the journal's row first, which is compared, and the rest only where
 * that was as expected.
 */
export function writeAtOnce(connection: SqliteDatabase, all: JournalWrite): boolean {
  const run = (text: string, values: readonly unknown[] = []): number =>
    Number(connection.prepare(text).run([...values]).changes);
  // The lock of writers is taken first, as a transaction that began by reading would be refused rather than wait.
  run("begin immediate");
  try {
    const isClaimed = claim(run, all) && !isAnyKnown(connection, all);
    if (isClaimed) writeRows(run, all);
    run(isClaimed ? "commit" : "rollback");
    return isClaimed;
  } catch (error) {
    run("rollback");
    throw error;
  }
}

type Run = (text: string, values?: readonly unknown[]) => number;

const CHANGED = ["revision", "events", "last_turn", "last_at", "last_id", "edition", "latest", "counted"] as const;
const COMPARED = ["revision", "events", "last_turn", "last_at", "last_id"] as const;
const OWNER = ["student", "curriculum"] as const;
const JOURNAL = [...OWNER, ...CHANGED];

const valuesOf = (row: JournalRow, names: readonly (keyof JournalRow)[]): readonly unknown[] =>
  names.map((name) => row[name]);
const insertInto = (table: string, names: readonly string[]): string =>
  `insert into ${table} (${names.join(", ")}) values (${names.map(() => "?").join(", ")})`;
const each = (names: readonly string[], joint: string): string => names.map((name) => `${name} = ?`).join(joint);

const BEGIN = `${insertInto("leeway_journals", JOURNAL)} on conflict (student, curriculum) do nothing`;
const CLAIM = `update leeway_journals set ${each(CHANGED, ", ")} where ${each([...OWNER, ...COMPARED], " and ")}`;
const KNOWN = "select 1 from leeway_events where student = ? and curriculum = ? and id = ?";
const EVENT = insertInto("leeway_events", [...OWNER, "turn", "digest", "id", "body"]);
const DRILL = `${insertInto("leeway_drills", [...OWNER, "place", "drill", "head"])} on conflict (student, curriculum, place)
  do update set drill = excluded.drill, head = excluded.head`;
const RUNG = `${insertInto("leeway_rungs", [...OWNER, "place", "rung", "number", "body"])}
  on conflict (student, curriculum, place, rung, number) do update set body = excluded.body`;
const PART = `${insertInto("leeway_summaries", [...OWNER, "part", "body"])}
  on conflict (student, curriculum, part) do update set body = excluded.body`;

function claim(run: Run, { before, after }: JournalWrite): boolean {
  const changes =
    before === undefined
      ? run(BEGIN, valuesOf(after, JOURNAL))
      : run(CLAIM, [...valuesOf(after, CHANGED), ...valuesOf(before, [...OWNER, ...COMPARED])]);
  return changes === 1;
}

function isAnyKnown(connection: SqliteDatabase, { before, events }: JournalWrite): boolean {
  if (before === undefined) return false;
  const known = connection.prepare(KNOWN);
  return events.some(({ student, curriculum, id }) => known.all([student, curriculum, id]).length > 0);
}

function writeRows(run: Run, { after: { student, curriculum }, events, drills, rungs, summary }: JournalWrite): void {
  for (const { turn, digest, id, body } of events) run(EVENT, [student, curriculum, turn, digest, id, body]);
  for (const { place, drill, head } of drills) run(DRILL, [student, curriculum, place, drill, head]);
  for (const { place, rung, number, body } of rungs) run(RUNG, [student, curriculum, place, rung, number, body]);
  for (const { part, body } of summary) run(PART, [student, curriculum, part, body]);
}
