import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { decide, drillStanding, fold, readJournal, standingText } from "../../lib/progress/index.js";
import type { JournalEvent } from "../../lib/schema/index.js";
import { record, type Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { findingOf, timeOf } from "../progress/course.js";
import { beginLessons, play } from "../progress/lessons.js";
import { killWriters, refusalsAtMost } from "../store/kills.js";
import { all, COURSE, enrolIn, keyOf, submit } from "../store/material.js";
import { startPostgres } from "../store/postgresServer.js";
import { programOf } from "../store/processes.js";
import { longJournal } from "./longJournal.js";

/**
 * What stores do in a second, under load and under fire: `npm run bench -- store`. Sizes may be set smaller: STUDENTS=1000 KILLS=60.
 * Times are of this machine while whatever else runs on it does; syncing to a virtual disk is quicker than to a real one.
 */
const STUDENTS = Number(process.env.STUDENTS ?? 10_000);
const EVENTS = 200;
const KILLS = Number(process.env.KILLS ?? 500);
/** Durable writes measured one by one. */
const SUBMISSIONS = 1000;
const LONG = 100_000;

const folder = mkdtempSync(join(tmpdir(), "leeway-bench-"));
const server = await startPostgres();

async function opened(place: string): Promise<Store> {
  const store = place.startsWith("postgres")
    ? await openPostgres(place, { create: true })
    : await openSqlite(place, { create: true });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
}

const rate = (count: number, time: number): string => `${(count / time).toFixed(0).padStart(7)}/s`;
const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
const ms = (time: number): string => `${(time * 1000).toFixed(2)} ms`;

/** Events appended one transaction each: a take at a time, each answered before the next. */
async function durable(store: Store): Promise<void> {
  await enrolIn(store, "one");
  let revision = (await store.open(keyOf("one")))!.revision;
  const [first] = termOf("one").filter(({ kind }) => kind === "take assessed") as [JournalEvent & { take: string }];
  const events = Array.from({ length: SUBMISSIONS }, (_, i) => ({
    ...first,
    id: `take:x${i}`,
    take: `x${i}`,
    turn: 10 + i,
  }));
  const appended = await seconds(async () => {
    for (const event of events)
      revision = (await store.append(keyOf("one"), [event as JournalEvent], revision)).revision;
  });
  await enrolIn(store, "two");
  let written = 0;
  const submitted = await seconds(async () => {
    for (let i = 0; i < SUBMISSIONS; i++)
      written += (await submit(store, "two", { take: `t${i}`, verdict: i % 3 ? "beyond" : "within" })).events.length;
  });
  await Promise.all(Array.from({ length: 8 }, (_, i) => enrolIn(store, `eight-${i}`)));
  const together = await seconds(() =>
    Promise.all(
      Array.from({ length: 8 }, async (_, s) => {
        for (let i = 0; i < SUBMISSIONS / 8; i++)
          await submit(store, `eight-${s}`, { take: `t${i}`, verdict: i % 3 ? "beyond" : "within" });
      }),
    ),
  );
  console.log(`  durable events, one a transaction, one student   ${rate(SUBMISSIONS, appended)}`);
  console.log(
    `  submissions (open, decide, append), one student  ${rate(SUBMISSIONS, submitted)}  (${rate(written, submitted).trim()} events)`,
  );
  console.log(`  submissions, eight students at once              ${rate(SUBMISSIONS, together)}`);
}

const terms = new Map<string, readonly JournalEvent[]>();
/** A term of lessons of a student: the same for all but for the name. */
function termOf(student: string): readonly JournalEvent[] {
  let term = terms.get("");
  if (term === undefined) {
    const lessons = beginLessons(COURSE);
    for (let i = 0; lessons.journal.length < EVENTS; i++) {
      const drill = lessons.standing.drills.find(({ state }) => state === "open")?.drill ?? "half-bar";
      play(lessons, COURSE, { drill, verdict: i % 3 === 2 ? "beyond" : "within" });
    }
    term = lessons.journal.slice(0, EVENTS);
    terms.set("", term);
  }
  return term.map((event) => ({ ...event, student }));
}

async function load(store: Store): Promise<void> {
  const names = Array.from({ length: STUDENTS }, (_, i) => `student-${i}`);
  const merged = await seconds(async () => {
    for (const name of names) await store.merge(keyOf(name), termOf(name));
  });
  console.log(
    `  load of ${STUDENTS} students x ${EVENTS} events: ${merged.toFixed(0)} s   ${rate(STUDENTS * EVENTS, merged)} events, a student a transaction`,
  );
  const opens: number[] = [];
  const submits: number[] = [];
  for (let i = 0; i < 500; i++) {
    const name = names[(i * 7919) % names.length]!;
    opens.push(await seconds(() => store.open(keyOf(name))));
    submits.push(await seconds(() => submit(store, name, { take: `late-${i}` })));
  }
  const listed = await seconds(() => all(store.journals()));
  console.log(
    `  then: open ${ms(median(opens))}, submit ${ms(median(submits))} (medians of 500), list everybody ${listed.toFixed(2)} s`,
  );
}

async function long(store: Store): Promise<void> {
  const { events } = readJournal(longJournal(LONG));
  const key = { student: "tern", curriculum: events[0]!.curriculum };
  const kept = await seconds(async () => {
    for (let i = 0; i < events.length; i += 1000) await store.merge(key, events.slice(i, i + 1000));
  });
  const opens: number[] = [];
  const glances: number[] = [];
  for (let i = 0; i < 25; i++) {
    opens.push(await seconds(() => store.open(key)));
    glances.push(
      await seconds(async () => {
        const { standing } = (await store.open(key))!;
        const drill = standing!.drills.at(-1)!;
        drill.rungs.find(({ rung }) => rung === drill.rung);
      }),
    );
  }
  const { standing } = (await store.open(key))!;
  const whole = await seconds(async () => standingText(standing!));
  const replay = await seconds(async () => fold(events));
  const same = standingText(fold(events).standing!) === standingText(standing!);
  const drill = standing!.drills.at(-1)!;
  const late = await seconds(() =>
    record(store, key, (journal) =>
      decide(
        COURSE,
        journal!.standing!,
        findingOf("late", "steady", drillStanding(journal!.standing!, drill.drill)!.rung ?? "", "within"),
        timeOf(9e6),
      ),
    ),
  );
  console.log(`  a student with ${LONG} events (kept in ${kept.toFixed(0)} s; same as a replay: ${same})`);
  console.log(
    `    open ${ms(median(opens))} (worst of 25: ${ms(Math.max(...opens))}), with the present rung ${ms(median(glances))}; every take of it read ${ms(whole)}; replay ${ms(replay)}; submit ${ms(late)}`,
  );
}

try {
  const places: (readonly [string, string])[] = [["SQLite", join(folder, "bench.sqlite")]];
  if (server !== undefined) places.push(["PostgreSQL", await server.database("bench")]);
  for (const [name, place] of places) {
    const store = await opened(place);
    console.log(`${name}`);
    await durable(store);
    await long(store);
    await load(store);
    if (name === "SQLite") console.log(`  size ${(statSync(place).size / 1e6).toFixed(0)} MB`);
    const erased = await seconds(() => store.erase("student-1"));
    console.log(`  erasing a student and every trace: ${erased.toFixed(1)} s`);
    await store.close();
  }
  const writer = await programOf("writer.ts", process.cwd());
  const seed = process.env.SEED ?? String(process.pid);
  const time = await seconds(async () => {
    const writers = 4;
    const { kills, acknowledged, lost, twice, refused, problems } = await killWriters(writer, {
      path: join(folder, "kills.sqlite"),
      kills: KILLS,
      writers,
      seed,
    });
    console.log(
      `SIGKILL (seed ${seed}): ${kills} kills, ${acknowledged} takes acknowledged, ${lost.length} lost, ${twice.length} twice, ${refused} writers refused for want of a turn, ${problems.length} problems in the file after any of them`,
    );
    if (lost.length + twice.length + problems.length > 0 || refused > refusalsAtMost(writers)) process.exitCode = 1;
  });
  writer.remove();
  console.log(`  in ${time.toFixed(0)} s`);
} finally {
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
}
