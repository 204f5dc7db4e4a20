import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Hono } from "hono";
import pg from "pg";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { enrol, submit } from "../../lib/practice/index.js";
import { decide, readJournal } from "../../lib/progress/index.js";
import { record as recordIn, type Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { migrate } from "../../lib/store/sql/migrations.js";
import { sqlStore } from "../../lib/store/sql/sqlStore.js";
import { connect, sqliteDatabase } from "../../lib/store/sqlite/connection.js";
import type { Connection } from "../../lib/store/sqlite/model.js";
import { playTo, quay } from "../practice/quay.js";
import { courseOf, findingOf, timeOf } from "../progress/course.js";
import { countedServer } from "../store/countedServer.js";
import { enrolIn, submit as record } from "../store/material.js";
import { startPostgres } from "../store/postgresServer.js";
import { type Asked, bareHandler, noting } from "./asked.js";
import { faithful, longJournal } from "./longJournal.js";

/**
 * What a database costs beside its bare statements: `npm run bench -- database`. All are ratios of one run, with the aims of the room's page. Sizes may be set
 * smaller: STUDENTS=1000 TAKES=100 LONG=10000.
 */
const STUDENTS = Number(process.env.STUDENTS ?? 10_000);
const TAKES = Number(process.env.TAKES ?? 400);
const LONG = Number(process.env.LONG ?? 100_000);
const ROUNDS = Number(process.env.ROUNDS ?? 3);
/** Requests at once. */
const AT_ONCE = 8;
const course = quay({ tempi: "{ from: 60, to: 160, by: 0.1 }" });
const folder = mkdtempSync(join(tmpdir(), "leeway-database-"));
const server = await startPostgres();

async function ms(work: () => unknown): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
const median = (times: readonly number[]): number => times.toSorted((a, b) => a - b)[times.length >> 1]!;
function tell(what: string, ratio: string, aim: string, more: string): void {
  console.log(`  ${what.padEnd(58)} ${ratio.padStart(9)}   aim ${aim.padEnd(8)} ${more}`);
}
const times = (ratio: number): string => `${ratio.toFixed(2)} x`;

const nameOf = (i: number): string => `s${i % AT_ONCE}`;
const at = "2026-03-02T17:30:00Z";
const [first] = course.drills;
const played = playTo(course, {
  id: "",
  drill: "steady",
  rung: settingsText(rungs(first!).at(0).settings),
  how: "late",
});
const take = (id: string) => ({ ...played, id });

/** Works through numbers, some at once, each worker with those of its own student. */
async function workers(count: number, work: (i: number) => Promise<unknown>): Promise<void> {
  const worker = async (first: number): Promise<void> => {
    for (let i = first; i < count; i += AT_ONCE) await work(i);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, (_, first) => worker(first)));
}

async function enrolAll(store: Store): Promise<void> {
  for (let i = 0; i < AT_ONCE; i++) await enrol(store, nameOf(i), { course, at });
  for (let i = 0; i < AT_ONCE; i++) await enrolIn(store, nameOf(i));
}

/** A take submitted by the use case, and one that was assessed before: what the store alone costs. */
const KINDS = {
  "submit()": (store: Store, i: number) => submit(store, nameOf(i), take(`t${i}`), { course, at }),
  "open, decide, append": (store: Store, i: number) => record(store, nameOf(i), { take: `t${i}`, verdict: "beyond" }),
} as const;

async function onServer(): Promise<void> {
  if (server === undefined) return console.log("  PostgreSQL is not installed: left out");
  for (const [name, work] of Object.entries(KINDS)) {
    const url = await server.database(`trips${++copies}`);
    const counted = await countedServer(url);
    const store = await opened(counted.url, 1);
    await enrolAll(store);
    await work(store, 0);
    const before = counted.trips();
    await work(store, AT_ONCE);
    tell(`PostgreSQL, ${name}: round trips`, String(counted.trips() - before), "<= 4", "");
    await store.close();
    counted.close();
  }
  for (const [name, work] of Object.entries(KINDS)) {
    const [ours, bare]: [number[], number[]] = [[], []];
    for (let round = 0; round < ROUNDS; round++) {
      const url = await server.database(`rate${++copies}`);
      const first = await opened(url, AT_ONCE);
      await enrolAll(first);
      await first.close();
      const log = new Map<number, Asked[]>();
      await recording(await copyOf(url), work, log);
      const handler = bareHandler(await copyOf(url), log, AT_ONCE);
      const store = await opened(url, AT_ONCE);
      const app = new Hono().put("/:i", async (c) => {
        await c.req.json();
        return c.json((await work(store, Number(c.req.param("i")))) as object);
      });
      const body = JSON.stringify(take("t"));
      const ask = (to: Hono) => (i: number) => Promise.resolve(to.request(`/${i}`, { method: "PUT", body }));
      ours.push(await ms(() => workers(TAKES, ask(app))));
      bare.push(await ms(() => workers(TAKES, ask(handler.app))));
      await handler.close();
      await store.close();
    }
    const [mine, theirs] = [median(ours), median(bare)];
    tell(
      `PostgreSQL, ${name}: rate beside hono + pg`,
      times(theirs / mine),
      ">= 0.5",
      `${((TAKES / mine) * 1000).toFixed(0)}/s and ${((TAKES / theirs) * 1000).toFixed(0)}/s`,
    );
  }
}

let copies = 0;
/** A database with the same contents; nobody may be connected to the first. */
async function copyOf(url: string): Promise<string> {
  const [copy, source] = [new URL(url), new URL(url).pathname.slice(1)];
  copy.pathname = `/copy${++copies}`;
  const admin = new pg.Client(server!.url);
  await admin.connect();
  await admin.query(
    `select pg_terminate_backend(pid) from pg_stat_activity where datname = $1 and pid <> pg_backend_pid()`,
    [source],
  );
  await admin.query(`create database copy${copies} template "${source}"`);
  await admin.end();
  return copy.href;
}

/** What a store asks for each of the takes, one after the other. */
async function recording(
  url: string,
  work: (store: Store, i: number) => Promise<unknown>,
  log: Map<number, Asked[]>,
): Promise<void> {
  const store = await opened(url, 1);
  const { query } = pg.Client.prototype;
  let asked: Asked[] = [];
  pg.Client.prototype.query = function (this: pg.Client, ...given: never[]) {
    const [what, values] = given as unknown as [string | Asked, unknown[]?];
    asked.push(typeof what === "string" ? { text: what, values: values ?? [] } : what);
    return (query as (...all: never[]) => unknown).apply(this, given);
  } as typeof query;
  try {
    for (let i = 0; i < TAKES; i++) {
      asked = [];
      await work(store, i);
      log.set(i, asked);
    }
  } finally {
    pg.Client.prototype.query = query;
    await store.close();
  }
}

async function opened(url: string, connections: number): Promise<Store> {
  const store = await openPostgres(url, { create: true, connections });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

async function sqliteStore(name: string, wrap = (connection: Connection): Connection => connection): Promise<Store> {
  const path = join(folder, `${name}.sqlite`);
  const database = sqliteDatabase(path, wrap(await connect(path, { create: true })));
  await migrate(database);
  return sqlStore(database);
}

async function inFile(): Promise<void> {
  for (const [name, work] of Object.entries(KINDS)) {
    const [ours, bare]: [number[], number[]] = [[], []];
    for (let round = 0; round < ROUNDS; round++) {
      const asked: Asked[] = [];
      const noted = await sqliteStore(`noted ${name} ${round}`, (connection) =>
        noting(connection, (each) => void asked.push(each)),
      );
      await enrolAll(noted);
      asked.length = 0;
      for (let i = 0; i < TAKES; i++) await work(noted, i);
      await noted.close();
      const store = await sqliteStore(`ours ${name} ${round}`);
      await enrolAll(store);
      ours.push(
        await ms(async () => {
          for (let i = 0; i < TAKES; i++) await work(store, i);
        }),
      );
      await store.close();
      const path = join(folder, `bare ${name} ${round}.sqlite`);
      const before = await sqliteStore(`bare ${name} ${round}`);
      await enrolAll(before);
      await before.close();
      const connection = await connect(path, { create: false });
      const ready = new Map<string, ReturnType<Connection["prepare"]>>();
      bare.push(
        await ms(() => {
          for (const { text, values } of asked) {
            const statement = ready.get(text) ?? connection.prepare(text);
            ready.set(text, statement);
            if (statement.reader) statement.all(values);
            else statement.run(values);
          }
        }),
      );
      connection.close();
    }
    const [mine, theirs] = [median(ours), median(bare)];
    tell(
      `SQLite, ${name}: time beside the bare statements`,
      times(mine / theirs),
      "<= 2",
      `${(mine / TAKES).toFixed(2)} and ${(theirs / TAKES).toFixed(2)} ms`,
    );
  }
}

/** The same takes of one student, one after the other and by eight devices at once. */
async function contended(name: string, open: (device: number) => Promise<Store>): Promise<void> {
  for (const [how, devices] of [
    ["one process", 1],
    ["eight processes", AT_ONCE],
  ] as const) {
    const stores = await Promise.all(Array.from({ length: devices }, (_, device) => open(device)));
    const ratios: number[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      const [alone, together] = [`alone ${how} ${round}`, `together ${how} ${round}`];
      for (const each of [alone, together]) await enrolIn(stores[0]!, each);
      const one = await ms(async () => {
        for (let i = 0; i < TAKES; i++) await record(stores[0]!, alone, { take: `t${i}`, verdict: "beyond" });
      });
      const all = await ms(() =>
        workers(TAKES, (i) => record(stores[i % devices]!, together, { take: `t${i}`, verdict: "beyond" })),
      );
      ratios.push(all / one);
    }
    tell(`${name}, eight at once to one student, ${how}`, times(median(ratios)), "<= 2", "beside one after the other");
    for (const store of stores) await store.close();
  }
}

async function long(name: string, store: Store, again: () => Promise<Store>): Promise<void> {
  for (const [shape, journalOf] of [
    ["many drills", (count: number) => readJournal(longJournal(count)).events],
    ["one drill", faithful],
  ] as const) {
    const costs: number[] = [];
    const opens: number[] = [];
    for (const count of [LONG / 100, LONG]) {
      const student = `${shape} ${count}`;
      const events = journalOf(count).map((event) => ({ ...event, student }));
      const key = { student, curriculum: events[0]!.curriculum };
      for (let i = 0; i < events.length; i += 1000) await store.merge(key, events.slice(i, i + 1000));
      const each: number[] = [];
      const { standing } = (await store.open(key))!;
      const drill = standing!.drills.at(-1)!;
      const { edition } = standing!;
      const sketches = standing!.drills.map(({ drill: called }) => ({ name: called, tempi: [60, 4, 12] as const }));
      const whole = { ...courseOf(sketches, { edition }), name: key.curriculum };
      for (let i = 0; i < 25; i++) {
        const finding = findingOf(`late${i}`, drill.drill, drill.rung ?? "", i % 2 ? "unclear" : "beyond");
        const taken = (): Promise<unknown> =>
          recordIn(store, key, (journal) => decide(whole, journal!.standing!, finding, timeOf(9e6 + i)));
        each.push(await ms(taken));
      }
      costs.push(median(each.slice(1)));
      const fresh = await again();
      opens.push(await ms(() => fresh.open(key)));
      await fresh.close();
    }
    tell(
      `${name}, ${LONG} events beside ${LONG / 100}, ${shape}`,
      times(costs[1]! / costs[0]!),
      "<= 2",
      `${costs[1]!.toFixed(1)} and ${costs[0]!.toFixed(1)} ms; open ${opens[1]!.toFixed(1)} and ${opens[0]!.toFixed(1)} ms`,
    );
  }
}

async function erasing(name: string, store: Store): Promise<void> {
  const costs: string[] = [];
  const { events } = readJournal(longJournal(200));
  const key = (student: string) => ({ student, curriculum: events[0]!.curriculum });
  let held = 0;
  const erased: number[] = [];
  for (const count of [STUDENTS / 10, STUDENTS]) {
    for (; held < count; held++)
      await store.merge(
        key(`pupil ${held}`),
        events.map((event) => ({ ...event, student: `pupil ${held}` })),
      );
    const each: number[] = [];
    for (let i = 1; i <= 3; i++) each.push(await ms(() => store.erase(`pupil ${held - i * 7}`)));
    erased.push(median(each));
    costs.push(`${count}: ${median(each).toFixed(0)} ms`);
  }
  tell(
    `${name}, erasing one of ${STUDENTS} beside ${STUDENTS / 10}`,
    times(erased[1]! / erased[0]!),
    "<= 2",
    costs.join(", "),
  );
}

const PARTS = (process.env.PARTS ?? "submit contended long erase").split(" ");
try {
  if (PARTS.includes("submit")) {
    await onServer();
    await inFile();
  }
  if (PARTS.includes("contended")) {
    if (server !== undefined) {
      const url = await server.database("contended");
      await contended("PostgreSQL", () => opened(url, AT_ONCE));
    }
    await contended("SQLite", () => sqliteStore("contended"));
  }
  const place = await server?.database("long");
  for (const [name, open] of [
    ["SQLite", () => sqliteStore("long")],
    ["PostgreSQL", () => opened(place!, 2)],
  ] as const) {
    if (name === "PostgreSQL" && place === undefined) continue;
    const store = await open();
    if (PARTS.includes("long")) await long(name, store, open);
    if (PARTS.includes("erase")) await erasing(name, store);
    await store.close();
  }
} finally {
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
}
