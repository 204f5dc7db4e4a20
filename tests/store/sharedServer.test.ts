import pg from "pg";
import { describe, expect } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { enrol, submit as submitTake } from "../../lib/practice/index.js";
import type { Store } from "../../lib/store/index.js";
import { openPostgres, type PostgresOptions } from "../../lib/store/postgres/index.js";
import { playTo, quay } from "../practice/quay.js";
import { timeOf } from "../progress/course.js";
import { countedServer } from "./countedServer.js";
import { all, enrolIn, keyOf, submit } from "./material.js";
import { serverLaws } from "./serverLaws.js";

const law = serverLaws();

async function opened(at: Parameters<typeof openPostgres>[0], options: Partial<PostgresOptions> = {}): Promise<Store> {
  const store = await openPostgres(at, { create: true, connections: 1, ...options });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

/** Round trips of a take: our aim. One opens, one appends. */
const TRIPS = 4;

describe("a store on a server that others use too", () => {
  law("submits a take in few round trips, also when it was sent before or another was first", async (host) => {
    const counted = await countedServer(await host.database("trips"));
    const [store, other] = [await opened(counted.url), await opened(counted.url)];
    const course = quay();
    await enrol(store, "tern", { course, at: timeOf(0) });
    await enrolIn(store, "tern");
    const trips = async (work: () => Promise<unknown>): Promise<number> => {
      const before = counted.trips();
      await work();
      return counted.trips() - before;
    };
    const rung = settingsText(rungs(course.drills[0]!).at(0).settings);
    const played = (id: string) => playTo(course, { id, drill: "steady", rung, how: "late" });
    const send = (by: Store, id: string) => submitTake(by, "tern", played(id), { course, at: timeOf(60) });
    const [first, second] = [await trips(() => send(store, "a")), await trips(() => send(store, "b"))];
    expect([first, second].every((each) => each > 0 && each <= TRIPS)).toBe(true);
    expect(await trips(() => submit(store, "tern", { take: "c" }))).toBeLessThanOrEqual(TRIPS);
    expect(await trips(() => send(other, "d"))).toBeLessThanOrEqual(TRIPS);
    expect(await trips(() => send(store, "d"))).toBeLessThanOrEqual(TRIPS);
    expect(await all(store.verify())).toEqual([]);
    for (const each of [store, other]) await each.close();
    counted.close();
  });

  law("names no statement and sets nothing on a connection that somebody else may have next", async (host) => {
    const counted = await countedServer(await host.database("unset"));
    const store = await opened(counted.url, { schema: "quay" });
    await enrolIn(store, "tern");
    await submit(store, "tern", { take: "a" });
    await store.merge(
      keyOf("gull"),
      (await all(store.events(keyOf("tern")))).map((event) => ({ ...event, student: "gull" })),
    );
    await store.keepCourse({ curriculum: "a", edition: "1", file: "a", text: "", files: {} });
    await store.register!.beginClass({ name: "monday", curriculum: "quay" });
    expect(await all(store.verify())).toEqual([]);
    await store.repair(keyOf("tern"));
    await store.erase("gull");
    const asked = counted.asked();
    expect(asked.length).toBeGreaterThan(50);
    expect(asked.filter(({ name }) => name !== "")).toEqual([]);
    const stays =
      /^\s*(?:set|reset|listen|prepare|declare|load|discard)\b|pg_advisory_lock|set_config\([^)]*false\)|temp(?:orary)? table/i;
    expect(asked.filter(({ text }) => stays.test(text))).toEqual([]);
    await store.close();
    counted.close();
  });

  law("lives in a schema beside another school, by the pool of an application that goes on using it", async (host) => {
    const pool = new pg.Pool({ connectionString: await host.database("shared"), max: 2 });
    const [quays, piers] = [await opened(pool, { schema: "quay" }), await opened(pool, { schema: 'Pier "2"' })];
    await enrolIn(quays, "tern");
    await enrolIn(piers, "gull");
    await submit(quays, "tern", { take: "a" });
    expect((await all(quays.journals())).map(({ student }) => student)).toEqual(["tern"]);
    expect((await piers.erase("tern")).journals).toBe(0);
    expect((await quays.open(keyOf("tern")))!.events).toBe(3);
    expect((await openPostgres(pool, { create: false })).ok).toBe(false);
    for (const store of [quays, piers]) {
      expect(await all(store.verify())).toEqual([]);
      await store.close();
    }
    const { rows } = await pool.query(
      "select schemaname, count(*)::integer as tables from pg_tables where tablename like 'leeway%' group by 1 order by 1",
    );
    expect(rows).toEqual([
      { schemaname: 'Pier "2"', tables: 14 },
      { schemaname: "quay", tables: 14 },
    ]);
    await pool.end();
  });

  law("of an older version is refused with the command, and changed only when that is asked", async (host) => {
    const url = await host.database("older");
    await (await opened(url)).close();
    const client = new pg.Client(url);
    await client.connect();
    await client.query("drop table leeway_learnt, leeway_summaries, leeway_rungs");
    await client.query("update leeway_store set value = '5' where name = 'shape'");
    expect(await openPostgres(url, { create: true })).toMatchObject({
      ok: false,
      problems: [{ code: "STORE_VERSION_OLDER", message: /version 5/, remedy: /leeway store migrate/ }],
    });
    expect((await client.query("select value from leeway_store where name = 'shape'")).rows).toEqual([{ value: "5" }]);
    await client.end();
    await (await opened(url, { migrate: true })).close();
    await (await opened(url)).close();
  });

  law("answers a take only when it is kept for good, also where the server's default is otherwise", async (host) => {
    const url = await host.database("lazy");
    const client = new pg.Client(url);
    await client.connect();
    await client.query("alter database lazy set synchronous_commit = off");
    const store = await opened(url);
    // What holds when a row is written, which is what holds when it is committed.
    await client.query("create table held (of text, level text)");
    await client.query(`create function note() returns trigger language plpgsql as
      $$ begin insert into held values (tg_table_name, current_setting('synchronous_commit')); return null; end $$`);
    const tables = ["leeway_events", "leeway_courses", "leeway_classes", "leeway_invitations"];
    for (const table of tables)
      await client.query(`create trigger noting after insert on ${table} for each statement execute function note()`);
    await enrolIn(store, "tern");
    await submit(store, "tern", { take: "a" });
    await store.merge(
      keyOf("gull"),
      (await all(store.events(keyOf("tern")))).map((event) => ({ ...event, student: "gull" })),
    );
    await store.keepCourse({ curriculum: "a", edition: "1", file: "a", text: "", files: {} });
    await store.register!.beginClass({ name: "monday", curriculum: "quay" });
    await store.register!.invite({ digest: "d", className: "monday", role: "student", until: timeOf(9e6) });
    const { rows } = await client.query("select distinct of, level from held order by of");
    expect(rows).toEqual(tables.toSorted().map((of) => ({ of, level: "on" })));
    await client.end();
    await store.close();
  });
});
