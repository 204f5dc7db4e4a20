import { spawn } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { accountFor, freePort, type PostgresServer } from "./postgresServer.js";

/** A pooler before a server, in transaction mode: each transaction gets whatever connection is free. */
export interface Pooler {
  /** The same database by way of the pooler. */
  through(url: string): string;
  stop(): void;
}

/** Debian keeps it out of the path of ordinary users. */
const PLACES = [...(process.env.PATH ?? "").split(":"), "/usr/sbin"];
/** Connections to the server: fewer than there are clients, so that they are shared. */
const SHARED = 2;

/** Starts PgBouncer before a server; `undefined`, and a line that says so, when it is not installed. */
export async function startPgBouncer(server: PostgresServer): Promise<Pooler | undefined> {
  const program = PLACES.map((folder) => join(folder, "pgbouncer")).find((each) => existsSync(each));
  if (program === undefined) {
    console.log("skipped: PgBouncer (pgbouncer) is not installed");
    return undefined;
  }
  const home = mkdtempSync(join(tmpdir(), "leeway-pgbouncer-"));
  const account = accountFor();
  if (account !== undefined) chownSync(home, account.uid, account.gid);
  const port = await freePort();
  const settings = join(home, "pgbouncer.ini");
  writeFileSync(
    settings,
    `[databases]
* = host=127.0.0.1 port=${new URL(server.url).port} user=school
[pgbouncer]
listen_addr = 127.0.0.1
listen_port = ${port}
unix_socket_dir =
auth_type = any
pool_mode = transaction
default_pool_size = ${SHARED}
max_client_conn = 200
`,
  );
  const running = spawn(program, ["--quiet", settings], { cwd: home, stdio: "ignore", ...account });
  await untilOpen(port);
  return {
    through: (url) => {
      const to = new URL(url);
      to.port = String(port);
      return to.href;
    },
    stop: () => {
      running.kill("SIGKILL");
      rmSync(home, { recursive: true, force: true });
    },
  };
}

async function untilOpen(port: number): Promise<void> {
  for (;;) {
    const isOpen = await new Promise<boolean>((resolve) => {
      const socket = connect(port, "127.0.0.1");
      socket.once("connect", () => resolve(true)).once("error", () => resolve(false));
      socket.once("connect", () => socket.destroy());
    });
    if (isOpen) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
