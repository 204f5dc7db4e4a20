import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import "fake-indexeddb/auto";
import pg from "pg";
import { memoryStore, type Store } from "../../lib/store/index.js";
import { openIndexedDb } from "../../lib/store/indexeddb/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { isThere, type Served, serve } from "../browser/chromium.js";
import { firefoxPage, hasFirefox, openFirefox } from "../browser/openFirefox.js";
import { remoteStore } from "../browser/remoteStore.js";
import { servedScripts } from "../browser/servedScripts.js";
import { sample } from "../samples.js";
import { type Pooler, startPgBouncer } from "../store/pgBouncer.js";
import { type PostgresServer, startPostgres } from "../store/postgresServer.js";

/** A way to have stores of one kind. */
export interface Kind {
  readonly name: string;
  /** Gets ready; false, having said why, when this machine cannot have such stores. */
  begin(): Promise<boolean>;
  /** An empty store, and further doors to the same one, as other devices have them. */
  fresh(): Promise<{ readonly store: Store; another(): Promise<Store> }>;
  end(): Promise<void>;
}

/** In the suite `tests/browser/firefox.test.ts` takes the samples of Firefox: every law in a browser of its own is for a proof. */
const IN_FIREFOX = sample({ suite: 1, proof: 2 }) > 1;

/** Every kind of store there is. */
export function kinds(): readonly Kind[] {
  const firefox = IN_FIREFOX ? [inFirefox()] : [];
  return [memory(), sqlite(), indexedDb(), inBrowser(), ...firefox, postgres(), behindPooler()];
}

function memory(): Kind {
  return {
    name: "memory",
    begin: async () => true,
    fresh: async () => {
      const store = memoryStore();
      return { store, another: async () => store };
    },
    end: async () => undefined,
  };
}

function sqlite(): Kind {
  let folder = "";
  let count = 0;
  const opened: Store[] = [];
  return {
    name: "SQLite",
    begin: async () => {
      folder = mkdtempSync(join(tmpdir(), "leeway-store-"));
      return true;
    },
    fresh: async () => {
      const path = join(folder, `${count++}.sqlite`);
      const another = async (): Promise<Store> => keep(opened, await openSqlite(path, { create: true }));
      return { store: await another(), another };
    },
    end: async () => {
      for (const store of opened) await store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** As browsers have it, by a library that keeps it in memory. */
function indexedDb(): Kind {
  let count = 0;
  const opened: Store[] = [];
  return {
    name: "IndexedDB",
    begin: async () => {
      return true;
    },
    fresh: async () => {
      const name = `school${count++}`;
      const another = async (): Promise<Store> => keep(opened, await openIndexedDb({ name }));
      return { store: await another(), another };
    },
    end: async () => {
      for (const store of opened) await store.close();
    },
  };
}

/** In a real browser, where every further door is a tab of its own. */
function inBrowser(): Kind {
  let served: Served | undefined;
  let count = 0;
  return {
    name: "IndexedDB in Chromium",
    begin: async () => {
      if (isThere) served = await serve({ script: "store.ts" });
      return isThere;
    },
    fresh: async () => {
      const name = `school${count++}`;
      const { page } = served!;
      const another = async (): Promise<Store> => {
        const tab = await page.context().newPage();
        await tab.goto(page.url());
        return remoteStore(tab, name);
      };
      return { store: remoteStore(page, name), another };
    },
    end: async () => served?.close(),
  };
}

/** The same in Firefox. */
function inFirefox(): Kind {
  let served: Awaited<ReturnType<typeof servedScripts>> | undefined;
  let browser: Awaited<ReturnType<typeof openFirefox>> | undefined;
  let count = 0;
  return {
    name: "IndexedDB in Firefox",
    begin: async () => {
      if (!hasFirefox) return false;
      served = await servedScripts({ script: "store.ts" });
      browser = await openFirefox();
      return true;
    },
    fresh: async () => {
      const name = `school${count++}`;
      const another = async (): Promise<Store> =>
        remoteStore((await firefoxPage(browser!, `${served!.origin}/`)).page, name);
      return { store: await another(), another };
    },
    end: async () => {
      await browser?.close();
      await served?.close();
    },
  };
}

function postgres(): Kind {
  let server: PostgresServer | undefined;
  let count = 0;
  const opened: Store[] = [];
  return {
    name: "PostgreSQL",
    begin: async () => {
      server = await startPostgres();
      return server !== undefined;
    },
    fresh: async () => {
      const url = await server!.database(`school${count++}`);
      const another = async (): Promise<Store> =>
        keep(opened, await openPostgres(url, { create: true, connections: 3 }));
      return { store: await another(), another };
    },
    end: async () => {
      for (const store of opened) await store.close();
      server?.stop();
    },
  };
}

/** A school in a schema of its own, by a pooler that gives each transaction another connection; every second door is the pool of an application. */
function behindPooler(): Kind {
  let server: PostgresServer | undefined;
  let pooler: Pooler | undefined;
  let count = 0;
  const opened: Store[] = [];
  const pools: pg.Pool[] = [];
  return {
    name: "PostgreSQL behind PgBouncer",
    begin: async () => {
      server = await startPostgres();
      pooler = server && (await startPgBouncer(server));
      return pooler !== undefined;
    },
    fresh: async () => {
      const url = pooler!.through(await server!.database(`pooled${count++}`));
      const options = { create: true, connections: 3, schema: "Quay school" };
      const another = async (): Promise<Store> => {
        if (opened.length % 2 === 0) return keep(opened, await openPostgres(url, options));
        const pool = new pg.Pool({ connectionString: url, max: 3 });
        pools.push(pool);
        return keep(opened, await openPostgres(pool, options));
      };
      return { store: await another(), another };
    },
    end: async () => {
      for (const store of opened) await store.close();
      for (const pool of pools) await pool.end();
      pooler?.stop();
      server?.stop();
    },
  };
}

type Opened = Awaited<ReturnType<typeof openSqlite>>;

function keep(opened: Store[], result: Opened): Store {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  opened.push(result.value);
  return result.value;
}
