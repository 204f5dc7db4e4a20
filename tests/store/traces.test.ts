import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import pg from "pg";
import { describe, expect } from "vitest";
import { placeByTeacher } from "../../lib/progress/index.js";
import { record, type Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { STUDENT_TABLES } from "../../lib/store/sql/tables.js";
import { timeOf } from "../progress/course.js";
import { COURSE, enrolIn, keyOf, submit } from "./material.js";
import type { PostgresServer } from "./postgresServer.js";
import { serverLaws } from "./serverLaws.js";

const law = serverLaws();

/**
 * What is searched for: a name, a take and, in the body of an event and nowhere else, a teacher's words. Letters that seldom meet, so that no
 * compression makes one of them a reference to what was before.
 */
const ERASED = { student: "Wjqkxzvy", take: "Zkqjxwvbn", words: "Gxqzjwkvp" };
const KEPT = { student: "Vbxqjzkw", take: "Qwzjxkbvf", words: "Jvqxkzwbg" };
const SECRETS: readonly string[] = Object.values(ERASED);

/** The tables whose statistics hold names and events, with those a school might have made besides. */
const ANALYSED = STUDENT_TABLES.join(", ");

async function ask<T>(url: string, question: string): Promise<readonly T[]> {
  const client = new pg.Client(url);
  await client.connect();
  try {
    const { rows } = await client.query(question);
    return rows as T[];
  } finally {
    await client.end();
  }
}

async function opened(url: string, patience = 10_000): Promise<Store> {
  const store = await openPostgres(url, { create: true, connections: 2, patience });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

/** Two students, each with a take and a teacher's words. */
async function lessonsIn(store: Store): Promise<void> {
  for (const { student, take, words } of [ERASED, KEPT]) {
    await enrolIn(store, student);
    await submit(store, student, { take });
    await record(store, keyOf(student), (journal) => {
      const placement = { drill: "half-bar", rung: "1", at: timeOf(90), because: words };
      const placed = placeByTeacher(COURSE, journal!.standing!, placement);
      if (!placed.ok) throw new Error(JSON.stringify(placed.problems));
      return placed.value;
    });
  }
}

/** A database of its own and an account that makes the tables in it, which owns the database or only what it makes. */
async function place(
  host: PostgresServer,
  name: string,
  owns: "database" | "tables",
): Promise<Record<"admin" | "url", string>> {
  const admin = await host.database(name);
  await ask(admin, `create role ${name} login`);
  if (owns === "database") await ask(admin, `alter database ${name} owner to ${name}`);
  await ask(admin, `grant all on schema public to ${name}`);
  return { admin, url: admin.replace("school@", `${name}@`) };
}

/** Makes the server keep statistics of every column, as it did by itself before it was forbidden. */
async function analyse(admin: string): Promise<void> {
  const columns = await ask<{ what: string }>(
    admin,
    `select 'alter table ' || attrelid::regclass || ' alter ' || attname || ' set statistics 100' as what from pg_attribute
     where attrelid in (${STUDENT_TABLES.map((table) => `'${table}'::regclass`).join()}) and attnum > 0 and not attisdropped`,
  );
  for (const { what } of columns) await ask(admin, what);
  await ask(admin, `analyze ${ANALYSED}`);
}

/** What the planner has of the tables, in words. */
async function plannerSays(admin: string): Promise<string> {
  const columns = "most_common_vals::text as vals, histogram_bounds::text as bounds";
  const rows = await ask(
    admin,
    `select tablename, attname, ${columns} from pg_stats where schemaname = 'public'
     union all select tablename, statistics_name, most_common_vals::text, null from pg_stats_ext where schemaname = 'public'`,
  );
  return JSON.stringify(rows);
}

/**
 * Which secrets are in the server's files, once it has written what it holds: `wal`, or the number a file begins with and the folder.
 * Compression of long values lays a byte of its own between at most eight others, which may be anywhere.
 */
async function secretsIn(host: PostgresServer, part: "files" | "pg_wal"): Promise<readonly string[]> {
  await ask(host.url, "checkpoint");
  const found = new Set<string>();
  for (const path of readdirSync(host.data, { recursive: true, encoding: "utf8" })) {
    if (path.startsWith("pg_wal") !== (part === "pg_wal")) continue;
    const text = textOf(join(host.data, path));
    for (const secret of SECRETS) if (RegExp([...secret].join("[^]?")).test(text)) found.add(`${secret} in ${path}`);
  }
  return [...found];
}

function textOf(path: string): string {
  try {
    return readFileSync(path, "latin1");
  } catch {
    // A folder, or a file that is gone since the folder was read.
    return "";
  }
}

/** The path of the file a table is in. */
async function fileOf(admin: string, table: string): Promise<string> {
  return (await ask<{ path: string }>(admin, `select pg_relation_filepath('${table}') as path`))[0]!.path;
}

describe("erase() on a server", () => {
  law("leaves no byte of a student in the server's files but the write-ahead log, and says so", async (host) => {
    const { admin, url } = await place(host, "pier", "database");
    const store = await opened(url);
    await lessonsIn(store);
    await ask(admin, "create index of_school on leeway_events (lower(body))");
    await ask(admin, "create statistics of_school (mcv) on student, id, body from leeway_events");
    await analyse(admin);
    const [before, statistics] = [await secretsIn(host, "files"), await fileOf(admin, "pg_statistic")];
    for (const secret of SECRETS) {
      expect(await plannerSays(admin)).toContain(secret);
      expect(before).toContain(`${secret} in ${await fileOf(admin, "leeway_events")}`);
      expect(before).toContain(`${secret} in ${statistics}`);
    }

    const { journals, elsewhere } = await store.erase(ERASED.student);
    expect(journals).toBe(1);
    expect(await secretsIn(host, "files")).toEqual([]);
    expect(await secretsIn(host, "pg_wal")).not.toEqual([]);
    expect(elsewhere).toContain("the server's write-ahead log until it is recycled");
    expect(elsewhere.join()).not.toContain("pg_statistic");
    expect(await plannerSays(admin)).toBe("[]");

    await ask(admin, `analyze ${ANALYSED}`);
    for (const secret of [...SECRETS, KEPT.student]) expect(await plannerSays(admin)).not.toContain(secret);
    expect((await store.open(keyOf(KEPT.student)))!.standing).toBeDefined();
    await store.close();
  });

  law("is more than deleting and vacuuming, after which bytes of the rows are still in the files", async (host) => {
    const { admin, url } = await place(host, "groyne", "database");
    const store = await opened(url);
    await lessonsIn(store);
    await ask(admin, `delete from leeway_journals where student = '${ERASED.student}'`);
    for (const table of STUDENT_TABLES) await ask(admin, `vacuum ${table}`);
    expect(await ask(admin, `select from leeway_events where student = '${ERASED.student}'`)).toEqual([]);
    expect((await secretsIn(host, "files")).join()).toContain(ERASED.student);
    await store.erase(ERASED.student);
    expect(await secretsIn(host, "files")).toEqual([]);
    await store.close();
  });

  law("has nothing to clear from statistics of a store it made, as the server keeps none", async (host) => {
    const { admin, url } = await place(host, "quay", "tables");
    const store = await opened(url);
    await lessonsIn(store);
    await ask(admin, `analyze ${ANALYSED}`);
    expect(await plannerSays(admin)).toBe("[]");
    expect(await secretsIn(host, "files")).not.toEqual([]);
    const { elsewhere } = await store.erase(ERASED.student);
    expect(await secretsIn(host, "files")).toEqual([]);
    // What an earlier version did is not known.
    expect(elsewhere.join()).toContain("VACUUM FULL pg_statistic, pg_statistic_ext_data");
    await store.close();
  });

  law(
    "of a store from before they were forbidden tells what only the owner of the database can clear",
    async (host) => {
      const { admin, url } = await place(host, "jetty", "tables");
      const store = await opened(url);
      await lessonsIn(store);
      await analyse(admin);
      const { elsewhere } = await store.erase(ERASED.student);
      expect(await plannerSays(admin)).toBe("[]");
      const statistics = await fileOf(admin, "pg_statistic");
      const left = await secretsIn(host, "files");
      expect(left).not.toEqual([]);
      expect(left.filter((each) => !each.endsWith(statistics))).toEqual([]);
      const remedy = /VACUUM FULL [a-z_, ]+/.exec(elsewhere.join("\n"))![0];
      await ask(admin, remedy);
      expect(await secretsIn(host, "files")).toEqual([]);
      await store.close();
    },
  );

  law("tells of statistics that a view on the tables keeps, and clears them once it is gone", async (host) => {
    const { admin, url } = await place(host, "wharf", "database");
    const store = await opened(url);
    await lessonsIn(store);
    await analyse(admin);
    await ask(admin, "create view of_school as select student, body from leeway_events");
    const { elsewhere } = await store.erase(ERASED.student);
    expect(elsewhere.join()).toContain("views, rules or policies");
    expect(await plannerSays(admin)).toContain(ERASED.student);
    await ask(admin, "drop view of_school");
    expect((await store.erase(ERASED.student)).elsewhere.join()).not.toContain("views");
    expect(await plannerSays(admin)).toBe("[]");
    expect(await secretsIn(host, "files")).toEqual([]);
    await store.close();
  });

  const problemOf = (work: Promise<unknown>): Promise<unknown> =>
    work.then(
      () => undefined,
      (error) => error.problem,
    );

  for (const [reader, question] of [
    ["reads the tables", "select count(*) from leeway_events"],
    ["may still read them", "select pg_current_xact_id()"],
  ] as const)
    law(`says that traces are left while a transaction ${reader}, and removes them when asked again`, async (host) => {
      const name = reader === "reads the tables" ? "mole" : "slip";
      const { url } = await place(host, name, "database");
      const store = await opened(url, 500);
      await lessonsIn(store);
      const other = new pg.Client(url);
      await other.connect();
      await other.query("begin isolation level repeatable read");
      await other.query(question);
      expect(await problemOf(store.erase(ERASED.student))).toMatchObject({
        code: "STORE_BUSY",
        message: /traces stay/,
      });
      expect(await secretsIn(host, "files")).not.toEqual([]);
      await other.end();
      expect(await store.erase(ERASED.student)).toMatchObject({ journals: 0 });
      expect(await secretsIn(host, "files")).toEqual([]);
      await store.close();
    });

  law("says that traces are left when the user does not own the tables", async (host) => {
    const { admin, url } = await place(host, "dock", "tables");
    const store = await opened(url);
    await lessonsIn(store);
    await ask(admin, "create role guest login");
    await ask(admin, `grant select, insert, update, delete on all tables in schema public to guest`);
    const guest = await opened(url.replace("dock@", "guest@"));
    expect(await problemOf(guest.erase(ERASED.student))).toMatchObject({
      code: "STORE_PLACE_UNUSABLE",
      message: /traces stay/,
    });
    expect(await secretsIn(host, "files")).not.toEqual([]);
    await store.erase(ERASED.student);
    expect(await secretsIn(host, "files")).toEqual([]);
    await store.close();
    await guest.close();
  });
});
