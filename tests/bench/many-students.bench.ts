import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { reportClass } from "../../lib/practice/index.js";
import type { Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { COURSE, enrolIn, keyOf, submit } from "../store/material.js";
import { startPostgres } from "../store/postgresServer.js";
import { rawSqlite } from "../store/rawSqlite.js";

/**
 * Whether a store with many students is as fast as one with few: `npm run bench -- many-students`. Journals are copied by statements inside the database, then the same is asked
 * of both stores in turn, so that what else runs meanwhile slows both. Then takes are submitted for SOAK seconds, and the memory of the process is printed. STUDENTS=10000 is smaller.
 */
const FEW = 1000;
const MANY = Number(process.env.STUDENTS ?? 100_000);
const TAKES = 20;
const ROUNDS = Number(process.env.ROUNDS ?? 200);
const SOAK = Number(process.env.SOAK ?? 600);
const folder = mkdtempSync(join(tmpdir(), "leeway-many-"));
const server = await startPostgres();

const nameOf = (i: number): string => `tern-${i}`;
const TABLES = ["journals", "events", "drills", "rungs", "summaries"] as const;
const COLUMNS: Readonly<Record<(typeof TABLES)[number], string>> = {
  journals: "curriculum, revision, events, last_turn, last_at, last_id, edition, latest, counted",
  events: "curriculum, turn, digest, id, replace(body, '\"tern\"', '\"tern-' || n || '\"')",
  drills: "curriculum, place, drill, head",
  rungs: "curriculum, place, rung, number, body",
  summaries: "curriculum, part, body",
};

/** Statements that copy the journal of `tern` to so many students. */
const copying = (count: number, numbers: string): readonly string[] =>
  TABLES.map(
    (table) => `insert into leeway_${table} select 'tern-' || n, ${COLUMNS[table]} from leeway_${table}
      cross join (${numbers.replace("COUNT", String(count))}) as numbers where student = 'tern' order by n`,
  );
const IN_SQLITE = "with recursive c(n) as (select 0 union all select n + 1 from c where n < COUNT - 1) select n from c";
const IN_POSTGRES = "select n from generate_series(0, COUNT - 1) as n";

async function opened(place: string): Promise<Store> {
  const store = place.startsWith("postgres")
    ? await openPostgres(place, { create: true })
    : await openSqlite(place, { create: true });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

/** A store with so many students of the same journal. */
async function filled(place: string, count: number): Promise<Store> {
  const store = await opened(place);
  await enrolIn(store, "tern");
  for (let i = 0; i < TAKES; i++) await submit(store, "tern", { take: `t${i}`, verdict: i % 3 ? "beyond" : "within" });
  if (place.startsWith("postgres")) {
    const client = new pg.Client(place);
    await client.connect();
    for (const text of copying(count, IN_POSTGRES)) await client.query(text);
    await client.end();
  } else {
    const raw = await rawSqlite(place);
    for (const text of copying(count, IN_SQLITE)) raw.exec(text);
    raw.close();
  }
  return store;
}

const median = (times: readonly number[]): number => times.toSorted((a, b) => a - b)[times.length >> 1]!;

const WORK: Readonly<Record<string, (store: Store, i: number, of: number) => Promise<unknown>>> = {
  "open a journal": (store, i, of) => store.open(keyOf(nameOf((i * 7919) % of))),
  "submit a take": (store, i, of) => submit(store, nameOf((i * 7919) % of), { take: `late-${i}` }),
  "report a class of 30": (store, i, of) => {
    const students = Array.from({ length: 30 }, (_, k) => nameOf((i * 31 + k) % of));
    return reportClass(store, { at: "2026-06-01T12:00:00Z", curriculum: COURSE.name, students });
  },
};

async function compared(name: string, placeOf: (which: string) => Promise<string>): Promise<void> {
  const began = performance.now();
  const [few, many] = [await filled(await placeOf("few"), FEW), await filled(await placeOf("many"), MANY)];
  console.log(
    `${name}: ${MANY} students x ${TAKES} takes beside ${FEW} (filled in ${((performance.now() - began) / 1000).toFixed(0)} s)`,
  );
  for (const [what, work] of Object.entries(WORK)) {
    const times: [number[], number[]] = [[], []];
    for (let i = 0; i < ROUNDS; i++)
      for (const [which, [store, of]] of (
        [
          [few, FEW],
          [many, MANY],
        ] as const
      ).entries()) {
        const start = performance.now();
        await work(store, i, of);
        times[which]!.push(performance.now() - start);
      }
    const [a, b] = [median(times[0]), median(times[1])];
    console.log(
      `  ${what.padEnd(22)} ${(b / a).toFixed(2)} x  aim <= 1.2   ${b.toFixed(2)} and ${a.toFixed(2)} ms, medians of ${ROUNDS}`,
    );
  }
  await few.close();
  await soaked(many);
  await many.close();
}

async function soaked(store: Store): Promise<void> {
  const [start, told]: [number, string[]] = [performance.now(), []];
  let takes = 0;
  for (let next = 0; performance.now() - start < SOAK * 1000; takes++) {
    await submit(store, nameOf((takes * 7919) % MANY), {
      take: `soak-${takes}`,
      verdict: takes % 3 ? "beyond" : "within",
    });
    if (performance.now() - start < next) continue;
    next += (SOAK * 1000) / 10;
    told.push(`${(process.memoryUsage().rss / 1e6).toFixed(0)}`);
  }
  console.log(`  ${takes} takes in ${SOAK} s, memory in tenths of it: ${told.join(" ")} MB`);
}

try {
  await compared("SQLite", async (which) => join(folder, `${which}.sqlite`));
  if (server === undefined) console.log("PostgreSQL is not installed: left out");
  else await compared("PostgreSQL", (which) => server.database(which));
} finally {
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
}
