import { type IDBPDatabase, openDB } from "idb";
import { storeFailure } from "../failure.js";
import { indexedDbProblem, isLost } from "./problems.js";
import { TABLES_VERSION, type Tables } from "./tables.js";

export type Connection = IDBPDatabase<Tables>;

/** A database that is opened again when its connection was lost. */
export interface Database {
  readonly name: string;
  /** Does work on a connection; once more on a new one when the connection was lost. Rejects with a `StoreProblem`. */
  run<Done>(work: (connection: Connection) => Promise<Done>): Promise<Done>;
  close(): void;
}

/** Opens a database, and makes its tables if it is new. A newer page that wants to change the tables is let: this one is closed. */
export async function connect(name: string): Promise<Database> {
  let connection: Promise<Connection> | undefined;
  const open = (): Promise<Connection> => {
    connection ??= openDB<Tables>(name, TABLES_VERSION, {
      upgrade: (database, before) => {
        // What a version added is made when an older one is found; nothing that is kept is touched.
        if (before < 2) database.createObjectStore("learnt", { keyPath: ["student", "curriculum"] });
        if (before > 0) return;
        database.createObjectStore("journals", { keyPath: ["student", "curriculum"] });
        const events = database.createObjectStore("events", { keyPath: ["student", "curriculum", "turn", "digest"] });
        events.createIndex("byId", ["student", "curriculum", "id"]);
        database.createObjectStore("setAside", { keyPath: ["student", "curriculum", "digest"] });
        const courses = database.createObjectStore("courses", { autoIncrement: true });
        courses.createIndex("byEdition", ["curriculum", "edition"]);
      },
      blocking: (_, __, event) => {
        (event.target as IDBDatabase).close();
        connection = undefined;
      },
      terminated: () => {
        connection = undefined;
      },
    });
    return connection;
  };
  const failed = (error: unknown): never => {
    throw storeFailure(indexedDbProblem(name, error), error);
  };
  const attempt = async <Done>(work: (connection: Connection) => Promise<Done>): Promise<Done> => work(await open());
  await open().catch(failed);
  let closed = false;
  return {
    name,
    run: async (work) => {
      if (closed) throw new TypeError(`the store ${name} was closed`);
      return attempt(work).catch((error) => {
        if (!isLost(error)) return failed(error);
        connection = undefined;
        return attempt(work).catch(failed);
      });
    },
    close: () => {
      closed = true;
      connection?.then((each) => each.close()).catch(() => undefined);
    },
  };
}
