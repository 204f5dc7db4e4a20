import { spawnSync } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, readdirSync, realpathSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import pg from "pg";

/** A PostgreSQL server of our own, on loopback, with its data in a folder that is removed with it. */
export interface PostgresServer {
  readonly url: string;
  readonly data: string;
  /** An empty database of this name. */
  database(name: string): Promise<string>;
  /** Runs a program of PostgreSQL's as whoever runs the server, in a folder of theirs: `pg_dump`, `pg_restore`. */
  run(program: string, words: readonly string[]): void;
  /** A server that follows this one by streaming replication, and can only be read; it ends with this one. */
  replica(): Promise<{ readonly url: string }>;
  /** As `pg_ctl restart -m immediate`: every connection is cut, and the server recovers as after a crash. */
  crash(): void;
  stop(): void;
}

/** Debian keeps the server's programs out of the path. */
const DEBIAN = "/usr/lib/postgresql";

/** Where PostgreSQL's programs are; `undefined`, and a line that says so, when they are not installed. */
function programs(): string | undefined {
  const folders = existsSync(DEBIAN) ? readdirSync(DEBIAN).map((version) => join(DEBIAN, version, "bin")) : [];
  const found = [...(process.env.PATH ?? "").split(":"), ...folders.sort().reverse()].find(
    (folder) => folder !== "" && existsSync(join(folder, "initdb")) && existsSync(join(folder, "pg_ctl")),
  );
  if (found === undefined) console.log("skipped: PostgreSQL (initdb, pg_ctl) is not installed");
  return found;
}

/** Seconds a server may take to start, on a machine with much other work: our choice. */
export const SECONDS_TO_START = 60;
/** Ports that are tried: our choice, two programs seldom want the same one, and hardly ever twice. */
const PORTS_AT_MOST = 3;

/** Starts a server; `undefined` when PostgreSQL is not installed. */
export async function startPostgres(): Promise<PostgresServer | undefined> {
  const found = programs();
  if (found === undefined) return undefined;
  // Where they are themselves, as links may be to some of them only.
  const folder = dirname(realpathSync(join(found, "initdb")));
  const home = mkdtempSync(join(tmpdir(), "leeway-postgres-"));
  const account = accountFor();
  if (account !== undefined) chownSync(home, account.uid, account.gid);
  const data = join(home, "data");
  const run = (program: string, words: readonly string[], stdio: "pipe" | "ignore" = "pipe"): string => {
    const { status, stdout, stderr, error } = spawnSync(join(folder, program), words, {
      cwd: home,
      encoding: "utf8",
      env: { ...process.env, HOME: home, LC_ALL: "C.UTF-8" },
      // The server keeps what it is given open: with a pipe this would wait for its end.
      stdio: ["ignore", stdio, stdio],
      ...account,
    });
    if (error !== undefined || status !== 0)
      throw error ?? new Error(`${program} ${words.join(" ")}\n${stdout}${stderr}`);
    return stdout;
  };
  run("initdb", ["-D", data, "-U", "school", "--auth=trust", "--encoding=UTF8", "--locale=C.UTF-8", "--no-sync"]);
  const startAt = (at: number, place = data): readonly string[] => {
    const settings = `-h 127.0.0.1 -p ${at} -k ''`;
    return ["-D", place, "-w", "-t", String(SECONDS_TO_START), "-l", `${place}.log`, "-o", settings];
  };
  /** Starts the server of a folder at a port that is free. */
  const begin = async (place: string): Promise<number> => {
    for (let ports = 1; ; ports++) {
      const at = await freePort();
      try {
        run("pg_ctl", ["start", ...startAt(at, place)], "ignore");
        return at;
      } catch (error) {
        // Somebody else may have taken the port since it was found free.
        if (ports === PORTS_AT_MOST) throw error;
      }
    }
  };
  const port = await begin(data);
  const start = startAt(port);
  const replicas: string[] = [];
  const address = (name: string): string => `postgresql://school@127.0.0.1:${port}/${name}`;
  return {
    url: address("postgres"),
    data,
    database: async (name) => {
      const client = new pg.Client(address("postgres"));
      await client.connect();
      await client.query(`create database "${name}"`);
      await client.end();
      return address(name);
    },
    replica: async () => {
      const place = join(home, `replica${replicas.length}`);
      run("pg_basebackup", [
        "-h",
        "127.0.0.1",
        "-p",
        `${port}`,
        "-U",
        "school",
        "-D",
        place,
        "-R",
        "--no-sync",
        "-c",
        "fast",
      ]);
      replicas.push(place);
      return { url: `postgresql://school@127.0.0.1:${await begin(place)}` };
    },
    run: (program, words) => void run(program, words),
    crash: () => void run("pg_ctl", ["restart", "-m", "immediate", ...start], "ignore"),
    stop: () => {
      for (const place of replicas) run("pg_ctl", ["stop", "-D", place, "-m", "immediate", "-w"], "ignore");
      run("pg_ctl", ["stop", "-D", data, "-m", "immediate", "-w"], "ignore");
      rmSync(home, { recursive: true, force: true });
    },
  };
}

/** PostgreSQL refuses to run as root: then it runs as the account Debian makes for it, or as nobody. */
export function accountFor(): { readonly uid: number; readonly gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined;
  for (const name of ["postgres", "nobody"]) {
    const ids = ["-u", "-g"].map((option) => spawnSync("id", [option, name], { encoding: "utf8" }));
    if (ids.every(({ status }) => status === 0)) return { uid: Number(ids[0]!.stdout), gid: Number(ids[1]!.stdout) };
  }
  throw new Error("PostgreSQL does not run as root, and there is neither an account postgres nor nobody");
}

/** A port of this machine that nobody has. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => resolve((address as { port: number }).port));
    });
  });
}
