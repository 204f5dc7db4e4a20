import "fake-indexeddb/auto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { keepingNow } from "../../lib/browser/index.js";
import { isStoreProblem } from "../../lib/store/index.js";
import { openIndexedDb } from "../../lib/store/indexeddb/index.js";
import { indexedDbProblem } from "../../lib/store/indexeddb/problems.js";
import { sample } from "../samples.js";
import { all, enrolIn, keyOf, submit, takesIn } from "../store/material.js";
import { isThere, type Served, serve } from "./chromium.js";
import { remoteStore } from "./remoteStore.js";

describe("a store in IndexedDB", () => {
  test("says what its errors mean", () => {
    const codes = ["QuotaExceededError", "VersionError", "SecurityError", "DataError"].map(
      (name) => indexedDbProblem("quay", new DOMException("no", name)).code,
    );
    expect(codes).toEqual(["STORE_FULL", "STORE_VERSION_NEWER", "STORE_PLACE_UNUSABLE", "STORE_FAILED"]);
  });

  test("rejects with STORE_FULL when there is no room, keeps nothing half, and goes on when there is again", async () => {
    const opened = await openIndexedDb({ name: "full" });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const store = opened.value;
    await enrolIn(store, "tern");
    const before = await all(store.events(keyOf("tern")));
    const put = IDBObjectStore.prototype.put;
    // The event finds room, and the row of its journal does not.
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...given: Parameters<typeof put>) {
      if (this.name === "journals") throw new DOMException("full", "QuotaExceededError");
      return put.apply(this, given);
    };
    const refused = await submit(store, "tern", { take: "t1" }).catch((error) => error);
    IDBObjectStore.prototype.put = put;
    expect(isStoreProblem(refused) && refused.problem.code).toBe("STORE_FULL");
    expect(await all(store.events(keyOf("tern")))).toEqual(before);
    await submit(store, "tern", { take: "t1" });
    expect(takesIn(await all(store.events(keyOf("tern"))))).toEqual(["t1"]);
    expect(await all(store.verify())).toEqual([]);
    await store.close();
  });

  test("of the first version is opened by this one with all that was in it, and its old tab is told of the newer page", async () => {
    const key = keyOf("tern");
    const now = await openIndexedDb({ name: "now" });
    if (!now.ok) throw new Error(JSON.stringify(now.problems));
    await enrolIn(now.value, "tern");
    await submit(now.value, "tern", { take: "t1" });
    const [journals, events] = await Promise.all(["journals", "events"].map((table) => rowsOf("now", table)));
    await now.value.close();
    // The tables as the first version made them, with the same rows.
    const old = await asked(indexedDB.open("old", 1), (request) => {
      const database = request.result;
      database.createObjectStore("journals", { keyPath: ["student", "curriculum"] });
      const kept = database.createObjectStore("events", { keyPath: ["student", "curriculum", "turn", "digest"] });
      kept.createIndex("byId", ["student", "curriculum", "id"]);
      database.createObjectStore("setAside", { keyPath: ["student", "curriculum", "digest"] });
      database
        .createObjectStore("courses", { autoIncrement: true })
        .createIndex("byEdition", ["curriculum", "edition"]);
    });
    const writing = old.transaction(["journals", "events"], "readwrite");
    for (const row of journals!) writing.objectStore("journals").put(row);
    for (const row of events!) writing.objectStore("events").put(row);
    await new Promise((resolve) => {
      writing.oncomplete = resolve;
    });
    let told = 0;
    old.onversionchange = () => {
      told += 1;
      old.close();
    };
    const opened = await openIndexedDb({ name: "old" });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const store = opened.value;
    expect(told).toBe(1);
    expect(takesIn(await all(store.events(key)))).toEqual(["t1"]);
    await submit(store, "tern", { take: "t2" });
    await store.learnt!.keep(key, { basis: "b", takes: 2, body: "x" });
    expect(await store.learnt!.read(key)).toEqual({ basis: "b", takes: 2, body: "x" });
    expect(await all(store.verify())).toEqual([]);
    await store.close();
    await expect(asked(indexedDB.open("old", 1))).rejects.toMatchObject({ name: "VersionError" });
  });

  test("has not learnt what it did not keep: a text that is another one is not read", async () => {
    const opened = await openIndexedDb({ name: "altered" });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const { value: store } = opened;
    await enrolIn(store, "tern");
    await store.learnt!.keep(keyOf("tern"), { basis: "b", takes: 2, body: "x" });
    const [row] = await rowsOf("altered", "learnt");
    const database = await asked(indexedDB.open("altered"));
    await asked(
      database
        .transaction("learnt", "readwrite")
        .objectStore("learnt")
        .put({ ...row, body: "y" }),
    );
    database.close();
    expect(await store.learnt!.read(keyOf("tern"))).toBeUndefined();
    await store.close();
  });

  test("gives way to a newer page, and says so", async () => {
    const opened = await openIndexedDb({ name: "newer" });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const request = indexedDB.open("newer", 99);
    await new Promise((resolve) => {
      request.onsuccess = resolve;
    });
    const refused = await opened.value.open(keyOf("tern")).catch((error) => error);
    expect(isStoreProblem(refused) && refused.problem.code).toBe("STORE_VERSION_NEWER");
    request.result.close();
  });

  test("keeps nothing where there is no IndexedDB, and that is said", async () => {
    const { indexedDB: here } = globalThis;
    Object.assign(globalThis, { indexedDB: undefined });
    const opened = await openIndexedDb();
    expect(!opened.ok && opened.problems[0]!.code).toBe("STORE_PLACE_UNUSABLE");
    expect(await keepingNow(opened)).toEqual({ state: "not kept" });
    Object.assign(globalThis, { indexedDB: here });
    expect((await keepingNow(opened)).state).toBe("not kept");
    expect((await keepingNow()).state).toBe("best effort");
  });
});

/** The result of a request of IndexedDB. */
function asked<T>(request: IDBRequest<T>, upgrade?: (request: IDBOpenDBRequest) => void): Promise<T> {
  return new Promise((resolve, reject) => {
    if (upgrade !== undefined)
      (request as unknown as IDBOpenDBRequest).onupgradeneeded = () => upgrade(request as unknown as IDBOpenDBRequest);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

async function rowsOf(name: string, table: string): Promise<readonly Readonly<Record<string, unknown>>[]> {
  const database = await asked(indexedDB.open(name));
  const rows = await asked(database.transaction(table).objectStore(table).getAll());
  database.close();
  return rows as readonly Readonly<Record<string, unknown>>[];
}

/** Pages that are closed while they write. */
const KILLS = sample({ suite: 4, proof: 40 });

describe.skipIf(!isThere)("a store in IndexedDB of a page that is killed", () => {
  let served: Served;
  beforeAll(async () => {
    served = await serve({ script: "store.ts" });
  });
  afterAll(() => served?.close());

  test(`has every take that was acknowledged, after ${KILLS} kills`, async () => {
    const acknowledged: string[] = [];
    const context = served.page.context();
    const store = remoteStore(served.page, "killed");
    await enrolIn(store, "tern");
    for (let kill = 0; kill < KILLS; kill++) {
      const tab = await context.newPage();
      await tab.goto(served.page.url());
      const writing = remoteStore(tab, "killed");
      const work = (async () => {
        for (let i = 0; ; i++) {
          const take = `${kill}-${i}`;
          await submit(writing, "tern", { take });
          acknowledged.push(take);
        }
      })().catch(() => undefined);
      await new Promise((resolve) => setTimeout(resolve, 150 + 37 * kill));
      await tab.close();
      await work;
    }
    const takes = takesIn(await all(store.events(keyOf("tern"))));
    expect(acknowledged.length).toBeGreaterThan(0);
    expect(acknowledged.filter((take) => !takes.includes(take))).toEqual([]);
    expect(new Set(takes).size).toBe(takes.length);
    expect(await all(store.verify())).toEqual([]);
  });
});
