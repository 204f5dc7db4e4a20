import pg from "pg";
import { expect, test } from "vitest";
import { reportOf } from "../../lib/practice/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { saidBy } from "../cli/said.js";
import { timeOf } from "../progress/course.js";
import { all, COURSE, enrolIn, submit } from "./material.js";
import { SECONDS_TO_START, startPostgres } from "./postgresServer.js";

test("a report is read from a replica, which is never ahead, says how far it is behind, and refuses to be written", async (context) => {
  const server = await startPostgres();
  if (server === undefined) return context.skip("PostgreSQL is not installed");
  const clients: pg.Client[] = [];
  try {
    const url = await server.database("school");
    const opened = await openPostgres(url, { create: true });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const store = opened.value;
    for (const name of ["tern", "knot"]) await enrolIn(store, name);
    await submit(store, "tern", { take: "t1" });
    const { url: follower } = await server.replica();
    const read = await openPostgres(`${follower}/school`, { create: false, patience: 1000 * SECONDS_TO_START });
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const replica = read.value;
    const ask = async (place: string, question: string): Promise<Record<string, unknown>> => {
      const client = new pg.Client(place);
      clients.push(client);
      await client.connect();
      return (await client.query(question)).rows[0];
    };
    const caughtUp = async (): Promise<void> => {
      const { at } = await ask(url, "select pg_current_wal_lsn() as at");
      for (;;) {
        const { is } = await ask(`${follower}/school`, `select pg_last_wal_replay_lsn() >= '${at}' as is`);
        if (is) return;
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    };
    const reports = async () =>
      Promise.all([store, replica].map((each) => reportOf(each, { courseOf: async () => COURSE, at: timeOf(500) })));
    expect(await replica.followedUntil!()).toBeUndefined();
    await submit(store, "knot", { take: "k1" });
    await caughtUp();
    const [first, followed] = await reports();
    expect(JSON.stringify(followed)).toBe(JSON.stringify(first));
    expect(JSON.stringify(first)).toContain("tern");

    // Halted, the replica tells an earlier state of the school, whole, and how long ago that was.
    await ask(`${follower}/school`, "select pg_wal_replay_pause()");
    for (;;) {
      const { state } = await ask(`${follower}/school`, "select pg_get_wal_replay_pause_state() as state");
      if (state === "paused") break;
    }
    const until = await replica.followedUntil!();
    const before = Date.now();
    expect(Date.parse(until!)).toBeLessThanOrEqual(before);
    await submit(store, "tern", { take: "t2" });
    expect([await replica.followedUntil!(), store.followedUntil]).toEqual([until, undefined]);
    const told = await saidBy(["report", "--store", `${follower}/school`, "--at", timeOf(500)]);
    expect(told.err).toContain(`from a replica whose last change is of ${until}`);
    const [ahead, behind] = await reports();
    expect(JSON.stringify(behind)).toBe(JSON.stringify(first));
    expect(JSON.stringify(ahead)).not.toBe(JSON.stringify(first));
    expect(await all(replica.verify())).toEqual([]);
    await expect(submit(replica, "tern", { take: "t3" })).rejects.toMatchObject({
      problem: { code: "STORE_READ_ONLY" },
    });
    await ask(`${follower}/school`, "select pg_wal_replay_resume()");
    await caughtUp();
    expect(Date.parse((await replica.followedUntil!())!)).toBeGreaterThanOrEqual(before);
    const [last, caught] = await reports();
    expect(JSON.stringify(caught)).toBe(JSON.stringify(last));
    await replica.close();
    await store.close();
  } finally {
    for (const client of clients) await client.end();
    server.stop();
  }
});
