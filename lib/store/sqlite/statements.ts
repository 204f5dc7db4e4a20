import type SqliteConnection from "better-sqlite3";
import type { SqliteDatabase } from "kysely";

type Statements = SqliteDatabase;

/** Largest number of prepared statements kept: our choice, enough for all but lists of unusual length. */
const MOST_READY = 100;

/** A statement without effect: the rollback when SQLite has already rolled back, as it does on a full disk. */
const NOTHING: ReturnType<Statements["prepare"]> = {
  reader: false,
  all: () => [],
  run: () => ({ changes: 0, lastInsertRowid: 0 }),
  iterate: () => [][Symbol.iterator](),
};

/** The connection as the query builder uses it. Statements are prepared once, and a rollback without a transaction does nothing, so that it does not hide the first error. */
export function statementsOf(connection: SqliteConnection.Database): Statements {
  const ready = new Map<string, ReturnType<Statements["prepare"]>>();
  return {
    close: () => void connection.close(),
    prepare: (text) => {
      if (text === "rollback" && !connection.inTransaction) return NOTHING;
      const known = ready.get(text);
      if (known !== undefined) return known;
      const prepared = connection.prepare(text) as unknown as ReturnType<Statements["prepare"]>;
      if (ready.size < MOST_READY) ready.set(text, prepared);
      return prepared;
    },
  };
}
