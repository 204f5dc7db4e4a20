import { readFileSync } from "node:fs";
import type { Database as PackageConnection } from "better-sqlite3";
import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";
import { sayProblem } from "../say.js";
import type { Connection, Driver } from "./model.js";
import { nodeDriver } from "./nodeDriver.js";

/** SQLite of this machine: Node's own (22.13 and later), else the package better-sqlite3. Throws the failure STORE_DRIVER_MISSING without either. */
export async function sqliteDriver(): Promise<Driver> {
  return nodeDriver() ?? (await packageDriver());
}

/** The package, which is compiled for each machine and may be missing. */
async function packageDriver(): Promise<Driver> {
  try {
    const { default: Database } = await import("better-sqlite3");
    return {
      open: (path, wait) => connectionOf(new Database(path, { timeout: wait })),
      openUnchanged: (path) => connectionOf(new Database(withoutLog(readFileSync(path)), { readonly: true })),
    };
  } catch (error) {
    const message = sayProblem("store-problem.store-driver-missing");
    const remedy = sayProblem("store-problem.store-driver-missing-remedy");
    throw storeFailure(storeProblem("STORE_DRIVER_MISSING", message, {}, remedy), error);
  }
}

/** The bytes of a database; its header says no longer that there may be a log beside it, as there is none beside bytes (https://sqlite.org/c3ref/deserialize.html). */
function withoutLog(bytes: Buffer): Buffer {
  bytes.fill(1, 18, 20);
  return bytes;
}

function connectionOf(connection: PackageConnection): Connection {
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
}
