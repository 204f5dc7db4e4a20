import type { Kysely, Transaction } from "kysely";
import type { Problem } from "../../base/index.js";
import type { Tables } from "./tables.js";

export type Trx = Transaction<Tables>;

/** What differs between databases; everything else is the same statements. */
export interface Database {
  readonly db: Kysely<Tables>;
  readonly place: string;
  /** Type of a column of names, compared by bytes. */
  readonly nameType: string;
  /** Put behind the definition of a table whose rows lie in the order of their primary key. */
  readonly clustered: string;
  /** What an error of the driver means. */
  problemOf(error: unknown): Problem;
  /** Whether doing the same again may succeed: the server is starting, a connection was cut. */
  isTransient(error: unknown): boolean;
  /** Whether the store's tables are there. */
  hasTables(db: Kysely<Tables>): Promise<boolean>;
  /** Makes sure that one process at a time changes the tables' shape; called first in that transaction. */
  lockMigrations(trx: Trx): Promise<void>;
  /** Keeps the store as it is before its tables change from a version; called before that transaction. */
  backUp(version: number): Promise<void>;
  /** Removes what deleted rows left in the store's own files; gives where else they may be, in words. */
  removeTraces(student: string): Promise<readonly string[]>;
  /** What is wrong below the level of tables, in words. */
  inspect(): Promise<readonly string[]>;
  /** Milliseconds for which what `isTransient` is tried again. */
  readonly patience: number;
  /** Milliseconds between these attempts. */
  readonly pause: number;
  close(): Promise<void>;
}
