import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Worded } from "../../lib/base/index.js";
import { standingText } from "../../lib/progress/index.js";
import { isStoreProblem, type Store } from "../../lib/store/index.js";
import { migrate, TABLES_VERSION } from "../../lib/store/sql/migrations.js";
import { sqlStore } from "../../lib/store/sql/sqlStore.js";
import { connect, sqliteDatabase } from "../../lib/store/sqlite/connection.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { all, enrolIn, keyOf, SINCE_VERSION_1, submit } from "./material.js";
import { rawSqlite } from "./rawSqlite.js";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-upkeep-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const opened = async (path: string): Promise<Store> => {
  const store = await openSqlite(path, { create: true, migrate: true });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
};

/** A store with some lessons of some students. */
async function lessonsIn(path: string, students: readonly string[]): Promise<Store> {
  const store = await opened(path);
  for (const student of students) {
    await enrolIn(store, student);
    for (let i = 0; i < 8; i++)
      await submit(store, student, { take: `${student}-${i}`, verdict: i % 3 ? "within" : "beyond" });
  }
  return store;
}

/** Names of the files of a store that have these bytes in them. */
function filesWith(text: string, start: string): readonly string[] {
  return readdirSync(folder).filter(
    (name) => name.startsWith(start) && readFileSync(join(folder, name)).includes(text),
  );
}

const codes = async (store: Store): Promise<readonly string[]> => (await all(store.verify())).map(({ code }) => code);

describe("verify() and repair()", () => {
  const tamper = async (path: string, statement: string): Promise<void> => {
    const raw = await rawSqlite(path);
    raw.exec(statement);
    raw.close();
  };

  test("find an event that was changed, and set it aside", async () => {
    const path = join(folder, "altered.sqlite");
    const store = await lessonsIn(path, ["tern", "gull"]);
    const before = (await all(store.events(keyOf("tern")))).length;
    await tamper(
      path,
      `update leeway_events set body = replace(body, '"beyond"', '"within"') where student = 'tern' and id = 'take:tern-0'`,
    );
    expect(await codes(store)).toEqual(["EVENT_ALTERED", "STANDING_STALE"]);
    expect(await store.repair(keyOf("tern"))).toBe(1);
    expect(await codes(store)).toEqual([]);
    expect(await all(store.events(keyOf("tern")))).toHaveLength(before - 1);
    const raw = await rawSqlite(path);
    expect(raw.values("select body from leeway_set_aside")).toEqual([expect.stringContaining("tern-0")]);
    raw.close();
    await store.erase("tern");
    await store.close();
    expect(filesWith("tern-0", "altered")).toEqual([]);
  });

  test.each([
    [
      "an event whose text is cut off",
      `update leeway_events set body = substr(body, 1, 40) where student = 'tern' and turn = 4`,
      "EVENT_ALTERED",
    ],
    [
      "an event under another turn",
      `update leeway_events set turn = 90 where student = 'tern' and turn = 4`,
      "EVENT_ALTERED",
    ],
    ["an event that is gone", `delete from leeway_events where student = 'tern' and turn = 4`, "EVENTS_MISSING"],
    [
      "a standing that was changed",
      `update leeway_rungs set body = replace(body, 'tern-1', 'tern-9') where student = 'tern'`,
      "STANDING_STALE",
    ],
    [
      "a summary that was changed",
      `update leeway_summaries set body = replace(body, '"version":2', '"version":3')`,
      "STANDING_STALE",
    ],
    ["a summary that is gone", "delete from leeway_summaries", "STANDING_STALE"],
    [
      "a drill of a summary that is not of it",
      "insert into leeway_summaries select student, curriculum, 'drill none', '{\"early\":[]}' from leeway_journals",
      "STANDING_STALE",
    ],
    ["a rung that is gone", "delete from leeway_rungs where number = 0", "STANDING_STALE"],
    ["a drill that is gone", `delete from leeway_drills where student = 'tern' and place = 0`, "STANDING_STALE"],
    [
      "an edition that was changed",
      `update leeway_journals set edition = '9.9.9' where student = 'tern'`,
      "STANDING_STALE",
    ],
  ])("find %s, and a repair by replay leaves a sound store", async (what, statement, code) => {
    const path = join(folder, `${what.replaceAll(" ", "-")}.sqlite`);
    const store = await lessonsIn(path, ["tern"]);
    await tamper(path, statement);
    expect(await codes(store)).toContain(code);
    await store.repair(keyOf("tern"));
    expect(await codes(store)).toEqual([]);
    await submit(store, "tern", { take: "afterwards" });
    expect(await codes(store)).toEqual([]);
    await store.close();
  });

  test("a repair of a standing gives the one that was there before it was spoilt", async () => {
    const path = join(folder, "spoilt.sqlite");
    const store = await lessonsIn(path, ["tern"]);
    const before = standingText((await store.open(keyOf("tern")))!.standing!);
    await tamper(path, "update leeway_drills set head = '{}'; update leeway_rungs set body = '{}'");
    await store.repair(keyOf("tern"));
    expect(standingText((await store.open(keyOf("tern")))!.standing!)).toBe(before);
    await store.close();
  });

  test("find a file that is damaged", async () => {
    const path = join(folder, "damaged.sqlite");
    await (
      await lessonsIn(
        path,
        Array.from({ length: 20 }, (_, i) => `student-${i}`),
      )
    ).close();
    const bytes = readFileSync(path);
    // Pages in the middle of the file, their beginnings overwritten.
    for (let page = 8; page < bytes.length / 4096; page += 3) bytes.fill(0x5a, page * 4096, page * 4096 + 64);
    writeFileSync(path, bytes);
    const store = await openSqlite(path, { create: false });
    const found = store.ok
      ? await all(store.value.verify()).then(
          (problems) => problems.map(({ code }) => code),
          (error) => [isStoreProblem(error) && error.problem.code],
        )
      : store.problems.map(({ code }) => code);
    expect(found).toContain("STORE_DAMAGED");
    if (store.ok) await store.value.close();
  });
});

describe("erase()", () => {
  test("leaves no byte of a student's name, takes or events in the store's files", async () => {
    const path = join(folder, "erased.sqlite");
    const store = await lessonsIn(path, ["gull", "oystercatcher", "plover"]);
    expect(filesWith("oystercatcher", "erased")).not.toEqual([]);
    expect(await store.erase("oystercatcher")).toMatchObject({ journals: 1 });
    expect(filesWith("oystercatcher", "erased")).toEqual([]);
    expect(filesWith("plover", "erased")).not.toEqual([]);
    expect(await codes(store)).toEqual([]);
    await store.close();
    expect(filesWith("oystercatcher", "erased")).toEqual([]);
  });

  test("leaves no sample of a student's keys where somebody had the file analysed, nor in a copy of it", async (context) => {
    const path = join(folder, "analysed.sqlite");
    const store = await lessonsIn(path, ["gull", "oystercatcher", "plover"]);
    const raw = await rawSqlite(path);
    raw.exec("analyze");
    const hasSamples = raw.values("select 1 from sqlite_master where name = 'sqlite_stat4'").length > 0;
    if (!hasSamples) {
      raw.close();
      await store.close();
      context.skip("the SQLite of this Node takes no samples of keys (it is built without STAT4)");
    }
    const samples = raw.values("select sample from sqlite_stat4") as readonly Uint8Array[];
    expect(samples.some((sample) => Buffer.from(sample).includes("oystercatcher"))).toBe(true);
    raw.prepare("vacuum into ?").run([`${path}.before-version-2`]);
    raw.close();
    expect(await store.erase("oystercatcher")).toMatchObject({ journals: 1 });
    expect(filesWith("oystercatcher", "analysed")).toEqual([]);
    expect(filesWith("plover", "analysed").length).toBeGreaterThanOrEqual(2);
    await store.close();
    expect(filesWith("oystercatcher", "analysed")).toEqual([]);
  });

  test("counts what it erased, also when the database was gone for a moment afterwards", async () => {
    const path = join(folder, "counted.sqlite");
    await (await lessonsIn(path, ["oystercatcher"])).close();
    const database = sqliteDatabase(path, await connect(path, { create: false }));
    let times = 0;
    const removeTraces = async (student: string): Promise<readonly Worded[]> => {
      if (times++ === 0) throw new Error("cut");
      return database.removeTraces(student);
    };
    const store = sqlStore({ ...database, isTransient: () => true, removeTraces });
    expect(await store.erase("oystercatcher")).toMatchObject({ journals: 1 });
    expect(times).toBe(2);
    await store.close();
  });

  test("says that traces are left while another program is reading, and removes them when asked again", async () => {
    const path = join(folder, "watched.sqlite");
    const store = await lessonsIn(path, ["oystercatcher", "plover"]);
    const reader = await rawSqlite(path);
    reader.exec("begin");
    reader.values("select count(*) from leeway_events");
    await expect(store.erase("oystercatcher")).rejects.toMatchObject({ problem: { code: "STORE_BUSY" } });
    expect(filesWith("oystercatcher", "watched")).not.toEqual([]);
    reader.close();
    expect(await store.erase("oystercatcher")).toMatchObject({ journals: 0 });
    expect(filesWith("oystercatcher", "watched")).toEqual([]);
    await store.close();
  });
});

describe("a store of an earlier version", () => {
  async function early(path: string): Promise<void> {
    const database = sqliteDatabase(path, await connect(path, { create: true }));
    await migrate(database);
    const store = sqlStore(database);
    for (const student of ["gull", "oystercatcher"]) {
      await enrolIn(store, student);
      await submit(store, student, { take: `${student}-1` });
    }
    await store.close();
    // The tables of version 1, as the first step made them, with what is in them now.
    const raw = await rawSqlite(path);
    for (const table of SINCE_VERSION_1) raw.exec(`drop table ${table}`);
    raw.exec("update leeway_store set value = '1' where name = 'shape'");
    raw.close();
  }

  test("is brought up to date, with a copy of the file as it was beside it", async () => {
    const path = join(folder, "early.sqlite");
    await early(path);
    const store = await opened(path);
    expect(await codes(store)).toEqual([]);
    expect(await all(store.events(keyOf("gull")))).toHaveLength(3);
    expect(await store.keepCourse({ curriculum: "a", edition: "1", file: "a", text: "", files: {} })).toBe("kept");
    await store.close();
    const copy = await rawSqlite(join(folder, "early.sqlite.before-version-2"));
    expect(copy.values("select value from leeway_store where name = 'shape'")[0]).toBe("1");
    expect(copy.values("select count(*) from leeway_events")[0]).toBe(6);
    copy.close();
    await (await opened(path)).close();
    expect(readdirSync(folder).filter((name) => name.startsWith("early.sqlite.before"))).toHaveLength(1);
  });

  test("is cleared of an erased student in that copy too", async () => {
    const path = join(folder, "copied.sqlite");
    await early(path);
    const store = await opened(path);
    const both = ["copied.sqlite", "copied.sqlite.before-version-2"];
    expect(filesWith("oystercatcher", "copied")).toEqual(expect.arrayContaining(both));
    await store.erase("oystercatcher");
    expect(filesWith("oystercatcher", "copied")).toEqual([]);
    expect(filesWith("gull", "copied").length).toBeGreaterThanOrEqual(2);
    await store.close();
  });

  test("is refused when it is of a later one", async () => {
    const path = join(folder, "later.sqlite");
    await (await opened(path)).close();
    const raw = await rawSqlite(path);
    raw.exec(`update leeway_store set value = '${TABLES_VERSION + 1}' where name = 'shape'`);
    raw.close();
    expect(await openSqlite(path, { create: true })).toMatchObject({
      ok: false,
      problems: [{ code: "STORE_VERSION_NEWER" }],
    });
  });
});
