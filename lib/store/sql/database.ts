import type { Kysely, RawBuilder, Transaction } from "kysely";
import type { Problem, Worded } from "../../base/index.js";
import type { StoreFault } from "../codes.js";
import type { JournalWrite, Tables } from "./tables.js";

export type Trx = Transaction<Tables>;

/** The differences between databases; all other statements are shared. */
export interface Database {
  readonly db: Kysely<Tables>;
  readonly place: string;
  /** The name of a table in a statement that is written out. */
  tableNamed(name: keyof Tables): RawBuilder<unknown>;
  /** Said first in each transaction of several statements. */
  begun(trx: Trx): Promise<void>;
  /** Writes all of it in one transaction; gives whether the journal was as expected and knew none of the ids. Otherwise nothing is written. */
  write(all: JournalWrite): Promise<boolean>;
  /** SQL type of a column of names, which are compared by bytes. */
  readonly nameType: string;
  /** SQL at the end of the definition of a table whose rows are stored in the order of their primary key. */
  readonly clustered: string;
  /** The problem for an error of the driver. */
  problemOf(error: unknown): Problem<StoreFault>;
  /** Whether a retry may succeed: the server is starting, or a connection was lost. */
  isTransient(error: unknown): boolean;
  /** Whether the tables of the store exist. */
  hasTables(db: Kysely<Tables>): Promise<boolean>;
  /** Takes the lock under which one process at a time migrates the tables; called first in that transaction. */
  lockMigrations(trx: Trx): Promise<void>;
  /** Makes a backup of the store before a migration from this version; called before that transaction. */
  backUp(version: number): Promise<void>;
  /** Removes traces of deleted rows in the files of the store; gives the other places where traces may be. */
  removeTraces(student: string): Promise<readonly Worded[]>;
  /** Damage below the level of tables, in words. */
  inspect(): Promise<readonly string[]>;
  /** Milliseconds for which transient errors are retried. */
  readonly patience: number;
  /** Milliseconds between retries. */
  readonly pause: number;
  close(): Promise<void>;
}

/** Does work in a transaction, which is durable once the promise has resolved. */
export function inTransaction<T>(
  { db, begun }: Pick<Database, "db" | "begun">,
  work: (trx: Trx) => Promise<T>,
): Promise<T> {
  return db.transaction().execute(async (trx) => {
    await begun(trx);
    return work(trx);
  });
}
