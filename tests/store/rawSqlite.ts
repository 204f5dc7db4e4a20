import { sqliteDriver } from "../../lib/store/sqlite/driver.js";
import { type Connection, valuesOf } from "../../lib/store/sqlite/model.js";

/** A connection to a SQLite file beside that of the store, as another program has one: with the driver this Node has. */
export interface RawSqlite extends Connection {
  /** The first column of the rows of a statement. */
  values(text: string): readonly unknown[];
  pragma(text: string): void;
}

/** Opens the file; it waits five seconds for locks, as programs usually do. */
export async function rawSqlite(path: string): Promise<RawSqlite> {
  const connection = (await sqliteDriver()).open(path, 5000);
  return {
    prepare: (text) => connection.prepare(text),
    exec: (text) => connection.exec(text),
    close: () => connection.close(),
    values: (text) => valuesOf(connection, text),
    pragma: (text) => void valuesOf(connection, `pragma ${text}`),
  };
}
