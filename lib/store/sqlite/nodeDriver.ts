import { pathToFileURL } from "node:url";
import type { Connection, Driver, Statement } from "./model.js";

/** What is used of `node:sqlite` (https://nodejs.org/api/sqlite.html). */
interface NodeSqlite {
  readonly DatabaseSync: new (path: string, options?: { readonly readOnly: boolean }) => NodeConnection;
}

interface NodeConnection {
  prepare(text: string): NodeStatement;
  exec(text: string): void;
  close(): void;
}

interface NodeStatement {
  all(...values: readonly unknown[]): unknown[];
  run(...values: readonly unknown[]): ReturnType<Statement["run"]>;
  iterate(...values: readonly unknown[]): IterableIterator<unknown>;
}

/** Result codes of SQLite that a store tells apart, by number (https://sqlite.org/rescode.html). */
const NAMES: Readonly<Record<number, string>> = {
  3: "SQLITE_PERM",
  5: "SQLITE_BUSY",
  6: "SQLITE_LOCKED",
  8: "SQLITE_READONLY",
  10: "SQLITE_IOERR",
  11: "SQLITE_CORRUPT",
  13: "SQLITE_FULL",
  14: "SQLITE_CANTOPEN",
  19: "SQLITE_CONSTRAINT",
  26: "SQLITE_NOTADB",
  778: "SQLITE_IOERR_WRITE",
};

/** The lower byte of an extended code is the code it extends. */
const PRIMARY = 0xff;

/** Node's own SQLite; `undefined` where Node has none. */
export function nodeDriver(): Driver | undefined {
  const sqlite = nodeSqlite();
  if (sqlite === undefined) return undefined;
  return {
    open: (path, wait) => {
      const connection = named(() => new sqlite.DatabaseSync(path));
      named(() => connection.exec(`pragma busy_timeout = ${wait}`));
      return connectionOf(connection);
    },
    // A file said never to change is read without a log and without locks (https://sqlite.org/uri.html#uriimmutable).
    openUnchanged: (path) =>
      connectionOf(named(() => new sqlite.DatabaseSync(`${pathToFileURL(path)}?immutable=1`, { readOnly: true }))),
  };
}

function connectionOf(connection: NodeConnection): Connection {
  return {
    prepare: (text) => statementOf(connection, text),
    exec: (text) => named(() => connection.exec(text)),
    close: () => connection.close(),
  };
}

/** Asked for by name at run time, as it is not there in every Node; it says of itself that it is experimental, which is no news to users of a store. */
function nodeSqlite(): NodeSqlite | undefined {
  const { getBuiltinModule } = process as { getBuiltinModule?: (name: string) => unknown };
  if (getBuiltinModule === undefined) return undefined;
  const warn = process.emitWarning;
  process.emitWarning = () => undefined;
  try {
    return getBuiltinModule("node:sqlite") as NodeSqlite | undefined;
  } finally {
    process.emitWarning = warn;
  }
}

function statementOf(connection: NodeConnection, text: string): Statement {
  const statement = named(() => connection.prepare(text));
  return {
    reader: /^\s*(?:select|with|pragma|values)\b|\breturning\b/i.test(text),
    all: (values) => named(() => statement.all(...values)),
    run: (values) => named(() => statement.run(...values)),
    iterate: (values) => named(() => statement.iterate(...values)),
  };
}

/** Does it; an error gets the name of its result code. */
function named<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    const number = error instanceof Error && "errcode" in error ? Number(error.errcode) : undefined;
    if (number !== undefined) {
      const name = NAMES[number] ?? NAMES[number & PRIMARY] ?? `SQLITE_${number}`;
      Object.assign(error as Error, { code: name });
    }
    throw error;
  }
}
