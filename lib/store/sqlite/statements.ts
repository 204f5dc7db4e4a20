import type SqliteConnection from "better-sqlite3";
import type { SqliteDatabase } from "kysely";

type Statements = SqliteDatabase;

/** Statements kept ready; our choice: all there are, but for lists of unusual length. */
const MOST_READY = 100;

/** What a rollback amounts to when SQLite has rolled back already, as it does when the disk is full. */
const NOTHING: ReturnType<Statements["prepare"]> = {
  reader: false,
  all: () => [],
  run: () => ({ changes: 0, lastInsertRowid: 0 }),
  iterate: () => [][Symbol.iterator](),
};

/** The connection as the query layer uses it: statements are prepared once, and a rollback of nothing hides no other error. */
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
