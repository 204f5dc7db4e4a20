import { afterAll, beforeAll, test } from "vitest";
import { type PostgresServer, startPostgres } from "./postgresServer.js";

/** Laws of a test file on one PostgreSQL server, which is started before the first and stopped after the last; skipped where PostgreSQL is not installed, which is printed. */
export function serverLaws(): (name: string, hold: (server: PostgresServer) => Promise<void>) => void {
  let server: PostgresServer | undefined;
  beforeAll(async () => {
    server = await startPostgres();
  });
  afterAll(() => server?.stop());
  return (name, hold) =>
    test(name, (context) => (server === undefined ? context.skip("PostgreSQL is not installed") : hold(server)));
}
