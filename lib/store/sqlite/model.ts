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

/** SQLite as this machine has it. */
export interface Driver {
  /** Opens the file at a path, and makes it when it is not there. Waits so many milliseconds for a lock. */
  open(path: string, wait: number): Connection;
  /** Opens a whole file, one without a write-ahead log, as it is now, for reading: nothing is written, neither to it nor beside it. */
  openUnchanged(path: string): Connection;
}

/** The rows of a statement. */
export function rowsOf<T>(connection: Connection, text: string, values: readonly unknown[] = []): readonly T[] {
  return connection.prepare(text).all(values) as T[];
}

/** The first column of each row of a statement. */
export function valuesOf(connection: Connection, text: string, values: readonly unknown[] = []): readonly unknown[] {
  return rowsOf<object>(connection, text, values).map((row) => Object.values(row)[0]);
}
