import "fake-indexeddb/auto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { keepingNow } from "../../lib/browser/index.js";
import { isStoreProblem } from "../../lib/store/index.js";
import { openIndexedDb } from "../../lib/store/indexeddb/index.js";
import { indexedDbProblem } from "../../lib/store/indexeddb/problems.js";
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

/** Pages that are closed while they write. */
const KILLS = 8;

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
