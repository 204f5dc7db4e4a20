import type { SqliteDatabase } from "kysely";
import type { Connection, Statement } from "./model.js";

/** Largest number of prepared statements kept: our choice, enough for all but lists of unusual length. */
const MOST_READY = 100;

/** The connection as the query builder uses it. Statements are prepared once, and a rollback without a transaction does nothing, so that it does not hide the first error. */
export function statementsOf(connection: Connection): SqliteDatabase {
  const ready = new Map<string, Statement>();
  return {
    close: () => connection.close(),
    prepare: (text) => {
      const known = ready.get(text);
      if (known !== undefined) return known;
      const prepared = connection.prepare(text);
      const statement = text === "rollback" ? forgiving(prepared) : prepared;
      if (ready.size < MOST_READY) ready.set(text, statement);
      return statement;
    },
  };
}

/** A rollback when SQLite has already rolled back, as it does on a full disk, is refused with this and nothing more. */
const NO_TRANSACTION = /no transaction is active/;

function forgiving(rollback: Statement): Statement {
  return {
    reader: false,
    all: () => [],
    iterate: () => [][Symbol.iterator](),
    run: (values) => {
      try {
        return rollback.run(values);
      } catch (error) {
        if (error instanceof Error && NO_TRANSACTION.test(error.message)) return { changes: 0, lastInsertRowid: 0 };
        throw error;
      }
    },
  };
}
