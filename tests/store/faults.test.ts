import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isStoreProblem, type Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { sqliteProblem } from "../../lib/store/sqlite/problems.js";
import { sample } from "../samples.js";
import { ROOT } from "../sources.js";
import { killWriters, refusalsAtMost } from "./kills.js";
import { all, enrolIn, keyOf, submit, takesIn } from "./material.js";
import { type Program, programOf, run } from "./processes.js";
import { rawSqlite } from "./rawSqlite.js";

let folder: string;
let writer: Program;
let reader: Program;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "leeway-faults-"));
  [writer, reader] = await Promise.all([programOf("writer.ts"), programOf("reader.ts")]);
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  writer.remove();
  reader.remove();
});

const opened = async (path: string): Promise<Store> => {
  const store = await openSqlite(path, { create: true });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
};

/** The takes of a journal, once the file has been found sound. */
async function soundTakes(path: string, student: string): Promise<readonly string[]> {
  const store = await opened(path);
  expect(await all(store.verify())).toEqual([]);
  const takes = takesIn(await all(store.events(keyOf(student))));
  await store.close();
  return takes;
}

async function codeOf(work: Promise<unknown>): Promise<string | undefined> {
  return work.then(
    () => undefined,
    (error) => (isStoreProblem(error) ? error.problem.code : String(error)),
  );
}

describe("a store in a file", () => {
  /** Each writer is a process; `npm run bench -- store` kills 500 times and more. */
  const KILLS = sample({ suite: 12, proof: 96 });

  test(`loses no acknowledged take when its writers are killed (${KILLS} times here, 500 in the bench)`, async () => {
    const seed = `${process.pid}`;
    console.log(`seed of the kills: ${seed}`);
    const [path, writers] = [join(folder, "kills.sqlite"), 3];
    const result = await killWriters(writer, { path, kills: KILLS, writers, seed });
    expect(result).toMatchObject({ lost: [], twice: [], problems: [] });
    expect(result.refused, "writers refused for want of a turn").toBeLessThanOrEqual(refusalsAtMost(writers));
    expect(result.acknowledged).toBeGreaterThan(0);
  });

  test("is written by several processes at once, and every take counts once", async () => {
    const path = join(folder, "processes.sqlite");
    const runs = await Promise.all(["a", "b", "c"].map((name) => run(writer, [path, "tern", name, "40"])));
    for (const each of runs) expect(each).toMatchObject({ failed: [], err: "" });
    const takes = await soundTakes(path, "tern");
    expect([...takes].sort()).toEqual(runs.flatMap(({ kept }) => kept).sort());
    expect(takes).toHaveLength(120);
  });

  test("lets everybody in who opens it at once while it is not there yet", async () => {
    const path = join(folder, "first.sqlite");
    const stores = await Promise.all(Array.from({ length: 6 }, () => run(writer, [path, "tern", "t", "0"])));
    for (const each of stores) expect(each).toMatchObject({ failed: [], err: "" });
    expect(await soundTakes(path, "tern")).toEqual([]);
  });

  test("waits at opening for one who holds on to it, and gives way meanwhile", async () => {
    const path = join(folder, "empty.sqlite");
    const other = await rawSqlite(path);
    other.exec("begin exclusive");
    const opening = openSqlite(path, { create: true });
    // The other one is in this very program: it gets on only if waiting does not hold the program up.
    await new Promise((resolve) => setTimeout(resolve, 100));
    other.exec("rollback");
    other.close();
    const store = await opening;
    expect(store).toMatchObject({ ok: true });
    if (store.ok) await store.value.close();
  });

  test("keeps all that was acknowledged when a limit on file sizes is met, and says STORE_FULL", async () => {
    const path = join(folder, "limited.sqlite");
    // In units of 1024 bytes: less than the write-ahead log grows to.
    const limited = await run(writer, [path, "tern", "t", "100000"], { shell: 'ulimit -f 400; exec "$@"' });
    expect(limited).toMatchObject({ failed: ["STORE_FULL"], err: "" });
    expect(limited.kept.length).toBeGreaterThan(0);
    const takes = await soundTakes(path, "tern");
    expect(takes).toEqual(expect.arrayContaining([...limited.kept]));
    expect(takes.length - limited.kept.length).toBeLessThanOrEqual(1);
    const store = await opened(path);
    await submit(store, "tern", { take: "with room again" });
    await store.close();
  });

  test("keeps all that was acknowledged when the disk is full, and says STORE_FULL", async (context) => {
    const disk = join(folder, "disk");
    mkdirSync(disk);
    if (spawnSync("mount", ["-t", "tmpfs", "-o", "size=600k", "leeway-test", disk]).status !== 0) {
      const reason = "a small disk cannot be mounted by this user";
      console.log(`skipped: ${reason}`);
      return context.skip(reason);
    }
    try {
      const path = join(disk, "full.sqlite");
      const full = await run(writer, [path, "tern", "t", "100000"]);
      expect(full).toMatchObject({ failed: ["STORE_FULL"], err: "" });
      expect(full.kept.length).toBeGreaterThan(0);
      // Elsewhere, where there is room to look at it.
      const copy = join(folder, "copy.sqlite");
      for (const end of ["", "-wal"]) writeFileSync(copy + end, readFileSync(path + end));
      expect(await soundTakes(copy, "tern")).toEqual(expect.arrayContaining([...full.kept]));
    } finally {
      spawnSync("umount", [disk]);
    }
  });

  describe("that may not be written", () => {
    /** Nothing is read-only to root, so somebody else has to try. */
    const account = process.getuid?.() === 0 ? { account: { uid: 65534, gid: 65534 } } : {};
    const home = (name: string): string => join(folder, name);

    /** Closes a folder and what is in it for writing while the work lasts. */
    async function closed<T>(place: string, work: () => Promise<T>): Promise<T> {
      chmodSync(folder, 0o755);
      for (const name of readdirSync(place)) chmodSync(join(place, name), 0o444);
      chmodSync(place, 0o555);
      try {
        return await work();
      } finally {
        chmodSync(place, 0o755);
        for (const name of readdirSync(place)) chmodSync(join(place, name), 0o600);
      }
    }

    test("is read as it is, sound, and says STORE_READ_ONLY to a take; not one byte beside it or in it changes", async () => {
      mkdirSync(home("closed"));
      const path = join(home("closed"), "closed.sqlite");
      const store = await opened(path);
      for (const student of ["tern", "plover"]) await enrolIn(store, student);
      await submit(store, "tern", { take: "t1" });
      await store.close();
      const before = readFileSync(path);
      await closed(home("closed"), async () => {
        const read = { kept: ["plover: 2", "tern: 3"], failed: ["STORE_READ_ONLY"], err: "" };
        expect(await run(reader, [path], account)).toMatchObject(read);
        const written = await run(writer, [path, "tern", "t", "1"], account);
        expect(written).toMatchObject({ failed: ["STORE_READ_ONLY"], kept: [], err: "" });
      });
      expect(readFileSync(path).equals(before)).toBe(true);
      expect(readdirSync(home("closed"))).toEqual(["closed.sqlite"]);
      expect(await soundTakes(path, "tern")).toEqual(["t1"]);
    });

    test("with a log beside it is not read without what the log holds", async () => {
      mkdirSync(home("logged"));
      const path = join(home("logged"), "logged.sqlite");
      await run(writer, [path, "tern", "t", "1000"], { killAfter: 300 });
      rmSync(`${path}-shm`, { force: true });
      expect(readFileSync(`${path}-wal`).length).toBeGreaterThan(0);
      const failed = { kept: [], failed: ["STORE_READ_ONLY"], err: "" };
      await closed(home("logged"), async () => expect(await run(reader, [path], account)).toMatchObject(failed));
      expect((await soundTakes(path, "tern")).length).toBeGreaterThan(0);
    });

    test("of an older version is refused, and stays as it is", async () => {
      mkdirSync(home("old"));
      const path = join(home("old"), "old.sqlite");
      writeFileSync(path, gunzipSync(readFileSync(join(ROOT, "tests", "store", "version1", "store.sqlite.gz"))));
      const before = readFileSync(path);
      const failed = { kept: [], failed: ["STORE_VERSION_OLDER"], err: "" };
      await closed(home("old"), async () => expect(await run(reader, [path], account)).toMatchObject(failed));
      expect(readFileSync(path).equals(before)).toBe(true);
      expect(readdirSync(home("old"))).toEqual(["old.sqlite"]);
    });
  });

  test("that another program holds on to says STORE_BUSY, and is as before", async () => {
    const path = join(folder, "held.sqlite");
    const store = await opened(path);
    await enrolIn(store, "tern");
    const other = await rawSqlite(path);
    other.exec("begin immediate");
    const impatient = await openSqlite(path, { create: false, patience: 60 });
    if (!impatient.ok) throw new Error("not opened");
    expect(await codeOf(submit(impatient.value, "tern", { take: "t1" }))).toBe("STORE_BUSY");
    other.exec("rollback");
    other.close();
    await submit(impatient.value, "tern", { take: "t1" });
    await impatient.value.close();
    await store.close();
    expect(await soundTakes(path, "tern")).toEqual(["t1"]);
  });
});

describe("openSqlite()", () => {
  const refused = async (path: string, create = true): Promise<unknown> => {
    const store = await openSqlite(path, { create });
    if (store.ok) await store.value.close();
    return store.ok ? undefined : store.problems.map(({ code, remedy }) => [code, remedy !== undefined]);
  };

  test("says that there is no store, and makes none, unless it is to be made", async () => {
    const path = join(folder, "nowhere.sqlite");
    expect(await refused(path, false)).toEqual([["STORE_NOT_FOUND", true]]);
    expect(await refused(path, true)).toBeUndefined();
    expect(await refused(path, false)).toBeUndefined();
  });

  test("refuses a folder, a missing folder, other people's files and databases, and leaves them as they are", async () => {
    expect(await refused(folder)).toEqual([["STORE_PLACE_UNUSABLE", true]]);
    expect(await refused(join(folder, "no", "store.sqlite"))).toEqual([["STORE_PLACE_UNUSABLE", true]]);
    const text = join(folder, "notes.txt");
    writeFileSync(text, "Rehearsal on Tuesday.\n".repeat(100));
    expect(await refused(text)).toEqual([["STORE_FOREIGN", true]]);
    expect(readFileSync(text, "utf8")).toMatch(/^Rehearsal/);
    const path = join(folder, "library.sqlite");
    const other = await rawSqlite(path);
    other.exec("create table sheets (title text)");
    other.close();
    const before = readFileSync(path);
    expect(await refused(path)).toEqual([["STORE_FOREIGN", true]]);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  test("makes files only their owner can read", async () => {
    const path = join(folder, "private.sqlite");
    const store = await opened(path);
    await enrolIn(store, "tern");
    const modes = spawnSync("stat", ["-c", "%a", path, `${path}-wal`], { encoding: "utf8" }).stdout;
    expect(modes).toBe("600\n600\n");
    await store.close();
  });

  test("names what it does not know by what SQLite says", () => {
    const error = Object.assign(new Error("disk I/O error"), { code: "SQLITE_IOERR_READ" });
    expect(sqliteProblem("a.sqlite", error)).toMatchObject({ code: "STORE_FAILED", message: /disk I\/O error/ });
    expect(sqliteProblem("a.sqlite", Object.assign(new Error(""), { code: "EACCES" })).code).toBe(
      "STORE_PLACE_UNUSABLE",
    );
  });
});
