import { readFileSync, writeFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { digestOf } from "../../../lib/store/sql/digest.js";
import type { EventRow, Tables } from "../../../lib/store/sql/tables.js";
import { rawSqlite } from "../rawSqlite.js";

/**
 * What leeway wrote before its events were of version 2, made with the command line of that revision: three students of one course, `enrol`,
 * `submit` and `place`, with an event of every kind; the store's file, its journals as `journal export` and its standings as
 * `standing --json` printed them.
 */
const held = (name: string): string => readFileSync(new URL(name, import.meta.url), "utf8");

export const JOURNALS: string = held("journals.jsonl");
export const STANDINGS: string = held("standings.jsonl");

/** Writes the store's file to a path, as it was. */
export function writeStore(path: string): void {
  writeFileSync(path, gunzipSync(readFileSync(new URL("store.sqlite.gz", import.meta.url))));
}

/** The rows of a table of a store's file. */
export async function rowsOf<Table extends keyof Tables>(
  path: string,
  table: Table,
): Promise<readonly Tables[Table][]> {
  const raw = await rawSqlite(path);
  const rows = raw.prepare(`select * from ${table}`).all([]) as readonly object[];
  raw.close();
  // Rows of Node's driver have no prototype.
  return rows.map((row) => ({ ...row })) as unknown as readonly Tables[Table][];
}

/** Gives the store's file `count` more students, who did all that tern did. */
export async function addStudents(path: string, count: number): Promise<void> {
  const raw = await rawSqlite(path);
  const insert = (table: string, row: object): void => {
    const names = Object.keys(row);
    raw.prepare(`insert into ${table} (${names}) values (${names.map(() => "?")})`).run(Object.values(row));
  };
  const of = <Row>(table: string): readonly Row[] =>
    raw.prepare(`select * from ${table} where student = 'tern'`).all([]) as readonly Row[];
  raw.exec("begin");
  const [journals, events, drills] = [of("leeway_journals"), of<EventRow>("leeway_events"), of("leeway_drills")];
  for (let i = 0; i < count; i++) {
    const student = `tern-${i}`;
    for (const row of journals) insert("leeway_journals", { ...(row as object), student });
    for (const row of events) {
      const body = row.body.replace('"student":"tern"', `"student":"${student}"`);
      insert("leeway_events", { ...row, student, body, digest: digestOf(body) });
    }
    for (const row of drills) insert("leeway_drills", { ...(row as object), student });
  }
  raw.exec("commit");
  raw.close();
}
