import { rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { describe, expect, test } from "vitest";
import { exportJournals, importJournals, isStoreProblem, memoryStore, type Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { postgresDatabase } from "../../lib/store/postgres/openPostgres.js";
import { postgresProblem } from "../../lib/store/postgres/problems.js";
import { migrate } from "../../lib/store/sql/migrations.js";
import { sqlStore } from "../../lib/store/sql/sqlStore.js";
import { all, enrolIn, keyOf, SINCE_VERSION_1, submit, takesIn } from "./material.js";
import { SECONDS_TO_START } from "./postgresServer.js";
import { serverLaws } from "./serverLaws.js";
import { JOURNALS, rowsOf, writeStore } from "./version1/fixture.js";

const law = serverLaws();

async function opened(url: string): Promise<Store> {
  // As patient as a restart may take.
  const store = await openPostgres(url, {
    create: true,
    migrate: true,
    connections: 4,
    patience: 1000 * SECONDS_TO_START,
  });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

async function ask<T>(url: string, question: string): Promise<readonly T[]> {
  const client = new pg.Client(url);
  await client.connect();
  const { rows } = await client.query(question);
  await client.end();
  return rows as T[];
}

const refused = async (url: string, create = true): Promise<string | undefined> => {
  const store = await openPostgres(url, { create, patience: 300 });
  if (store.ok) await store.value.close();
  return store.ok ? undefined : store.problems[0]!.code;
};

describe("a store on a server", () => {
  law("loses no take and counts none twice when the server crashes in the middle of writing", async (host) => {
    const url = await host.database("crash");
    const store = await opened(url);
    const other = await opened(url);
    await enrolIn(store, "tern");
    const names = Array.from({ length: 150 }, (_, i) => `t${i}`);
    let done = 0;
    const work = [store, other].map(async (device, d) => {
      for (const [i, take] of names.entries()) {
        if (i % 2 !== d) continue;
        await submit(device, "tern", { take, verdict: i % 3 ? "beyond" : "within" });
        done++;
      }
    });
    const crashes = [20, 60, 110].map(async (after) => {
      while (done < after) await new Promise((resolve) => setTimeout(resolve, 2));
      host.crash();
    });
    await Promise.all([...work, ...crashes]);
    expect([...takesIn(await all(store.events(keyOf("tern"))))].sort()).toEqual([...names].sort());
    expect(await all(store.verify())).toEqual([]);
    await store.close();
    await other.close();
  });

  law("that is empty gets its tables from one of many that open it at once", async (host) => {
    for (const name of ["first", "second", "third"]) {
      const url = await host.database(name);
      const stores = await Promise.all(Array.from({ length: 6 }, () => opened(url)));
      for (const store of stores) await store.close();
      expect(await ask(url, "select value from leeway_store where name = 'shape'")).toHaveLength(1);
    }
  });

  law("of an earlier version is brought up to date, by one of many that open it at once", async (host) => {
    const url = await host.database("early");
    const database = await postgresDatabase(url, { create: true });
    await migrate(database);
    const early = sqlStore(database);
    await enrolIn(early, "tern");
    await early.close();
    for (const table of SINCE_VERSION_1) await ask(url, `drop table ${table}`);
    await ask(url, "update leeway_store set value = '1' where name = 'shape'");
    const stores = await Promise.all([opened(url), opened(url), opened(url)]);
    for (const store of stores) {
      expect(await all(store.verify())).toEqual([]);
      await store.close();
    }
    await ask(url, "update leeway_store set value = '99' where name = 'shape'");
    expect(await refused(url)).toBe("STORE_VERSION_NEWER");
  });

  law("that was written with events of version 1 has them of version 2, once", async (host) => {
    const path = join(tmpdir(), `leeway-version1-${process.pid}.sqlite`);
    writeStore(path);
    const url = await host.database("version1");
    const database = await postgresDatabase(url, { create: true });
    await migrate(database, { upTo: 2 });
    for (const table of ["leeway_journals", "leeway_events", "leeway_drills"] as const)
      await database.db
        .insertInto(table)
        .values([...(await rowsOf(path, table))])
        .execute();
    await database.close();
    rmSync(path);
    const store = await opened(url);
    expect(await all(store.verify())).toEqual([]);
    const lines = JOURNALS.trimEnd().split("\n");
    const values = lines.map((text, i) => ({ value: JSON.parse(text) as unknown, line: i + 1 }));
    const fresh = memoryStore();
    await importJournals(fresh, values);
    expect((await all(exportJournals(store))).join("")).toBe((await all(exportJournals(fresh))).join(""));
    expect(await importJournals(store, values)).toMatchObject({ added: 0, known: lines.length, problems: [] });
    await store.close();
  });

  law("begins each table's primary key with the student, but for classes, courses and the version", async (host) => {
    const url = await host.database("keys");
    await (await opened(url)).close();
    const keys = await ask<{ tables: string; first: string }>(
      url,
      `select c.relname as tables, a.attname as first from pg_index i join pg_class c on c.oid = i.indrelid
       join pg_attribute a on a.attrelid = c.oid and a.attnum = i.indkey[0] where c.relname like 'leeway%' and i.indisprimary order by 1`,
    );
    expect(keys.filter(({ first }) => first !== "student").map(({ tables }) => tables)).toEqual([
      "leeway_classes",
      "leeway_courses",
      "leeway_store",
    ]);
    expect(keys.length).toBeGreaterThan(6);
  });

  law("that is not there, not reachable or not to be written is refused with its reason", async (host) => {
    const url = await host.database("empty");
    expect(await refused(url, false)).toBe("STORE_NOT_FOUND");
    expect(await refused(`${url}-no`)).toBe("STORE_UNREACHABLE");
    expect(await refused("postgresql://school@127.0.0.1:9/school")).toBe("STORE_UNREACHABLE");
    const store = await opened(url);
    await enrolIn(store, "tern");
    await ask(url, "alter database empty set default_transaction_read_only = on");
    const reader = await opened(url);
    expect((await reader.open(keyOf("tern")))!.events).toBe(2);
    const code = await submit(reader, "tern", { take: "t1" }).then(
      () => undefined,
      (error) => isStoreProblem(error) && error.problem.code,
    );
    expect(code).toBe("STORE_READ_ONLY");
    await store.close();
    await reader.close();
  });
});

describe("postgresProblem()", () => {
  // Codes: PostgreSQL manual, appendix A (from memory).
  test.each([
    ["53100", "STORE_FULL"],
    ["40P01", "STORE_BUSY"],
    ["28P01", "STORE_UNREACHABLE"],
    ["42501", "STORE_PLACE_UNUSABLE"],
    ["XX001", "STORE_DAMAGED"],
    ["22000", "STORE_FAILED"],
  ])("reads SQLSTATE %s as %s", (code, expected) => {
    expect(postgresProblem("here", Object.assign(new Error("said"), { code })).code).toBe(expected);
  });
});
