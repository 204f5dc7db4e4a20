import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";

/** A prepared statement. Values are bound in order; a row is an object by column. */
export interface Statement {
  /** Whether it gives rows. */
  readonly reader: boolean;
  all(values: readonly unknown[]): unknown[];
  run(values: readonly unknown[]): { readonly changes: number | bigint; readonly lastInsertRowid: number | bigint };
  iterate(values: readonly unknown[]): IterableIterator<unknown>;
}

/** What a store needs of SQLite. Errors carry the name of SQLite's result code (https://sqlite.org/rescode.html) as `code`. */
export interface Connection {
  prepare(text: string): Statement;
  /** Runs statements that give nothing. */
  exec(text: string): void;
  close(): void;
}

/** Opens the file at a path, and makes it when it is not there. Waits so many milliseconds for a lock. */
export type OpenConnection = (path: string, wait: number) => Connection;

/** SQLite of this machine: Node's own (22.13 and later), else the package better-sqlite3. Throws the failure STORE_DRIVER_MISSING without either. */
export async function sqliteDriver(): Promise<OpenConnection> {
  const own = await import("./nodeDriver.js");
  return own.nodeDriver() ?? (await packageDriver());
}

/** The package, which is compiled for each machine and may be missing. */
export async function packageDriver(): Promise<OpenConnection> {
  try {
    const { default: Database } = await import("better-sqlite3");
    return (path, wait) => {
      const connection = new Database(path, { timeout: wait });
      return {
        prepare: (text) => {
          const statement = connection.prepare<unknown[]>(text);
          return {
            reader: statement.reader,
            // A pragma that sets something gives nothing, and must not be asked for it.
            all: (values) => {
              if (statement.reader) return statement.all(...values);
              statement.run(...values);
              return [];
            },
            run: (values) => statement.run(...values),
            iterate: (values) => statement.iterate(...values),
          };
        },
        exec: (text) => void connection.exec(text),
        close: () => void connection.close(),
      };
    };
  } catch (error) {
    const message =
      "stores in files need Node 22.13 or later, or the package better-sqlite3, which is not installed or not built for this machine";
    const remedy =
      "use a newer Node; or npm install better-sqlite3 (it is compiled if need be: python3, make and a C++ compiler), or name a PostgreSQL store";
    throw storeFailure(storeProblem("STORE_DRIVER_MISSING", message, {}, remedy), error);
  }
}

/** The rows of a statement. */
export function rowsOf<T>(connection: Connection, text: string, values: readonly unknown[] = []): readonly T[] {
  return connection.prepare(text).all(values) as T[];
}

/** The first column of each row of a statement. */
export function valuesOf(connection: Connection, text: string, values: readonly unknown[] = []): readonly unknown[] {
  return rowsOf<object>(connection, text, values).map((row) => Object.values(row)[0]);
}
