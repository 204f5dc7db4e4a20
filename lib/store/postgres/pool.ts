import type { PostgresPool as DialectPool } from "kysely";
import { notInstalled } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";
import { sayProblem } from "../say.js";
import { placeOf } from "./address.js";

/** Connections of an application, as a `Pool` of the package `pg` has them. They are shared: nothing is set on one but for a transaction. */
export interface GivenPool {
  connect(): Promise<GivenConnection>;
}

/** One of its connections. */
export interface GivenConnection {
  query(text: string, values: readonly unknown[]): Promise<unknown>;
  release(): void;
}

/** Milliseconds to wait for a connection: our choice. */
const CONNECTING = 5000;

/** What a store calls connections that it was given: their own address may hold a password. */
const GIVEN = "PostgreSQL";

/** The connections of a store, and what their place is called. */
export interface Connections {
  readonly pool: DialectPool;
  readonly place: string;
}

/** Connections that were given, which are left open, or new ones to an address, which are closed with the store. */
export async function connectionsTo(at: string | GivenPool, most: number): Promise<Connections> {
  if (typeof at !== "string") {
    const connect = (): ReturnType<DialectPool["connect"]> => at.connect() as ReturnType<DialectPool["connect"]>;
    return { pool: { connect, end: async () => undefined }, place: GIVEN };
  }
  const place = placeOf(at);
  const driver = await import("pg").catch(notInstalled);
  if (driver === undefined) {
    const message = sayProblem("store-problem.server-driver-missing");
    const remedy = sayProblem("store-problem.server-driver-missing-remedy");
    throw storeFailure(storeProblem("STORE_DRIVER_MISSING", message, {}, remedy));
  }
  const pool = new driver.default.Pool({
    connectionString: at,
    max: most,
    connectionTimeoutMillis: CONNECTING,
    application_name: "leeway",
  });
  // A lost connection fails its query, and the next query opens another. Nothing else has to be done.
  pool.on("error", () => undefined);
  pool.on("connect", (client) => client.on("error", () => undefined));
  return { pool, place };
}

/** The name by which a place is known where it could not be opened. */
export function placeNamed(at: string | GivenPool): string {
  return typeof at === "string" ? placeOf(at) : GIVEN;
}
