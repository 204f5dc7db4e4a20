import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { random } from "../../lib/base/index.js";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { priorBelief } from "../../lib/plan/index.js";
import { planFor, reportClass, reportOf } from "../../lib/practice/index.js";
import { compareEvents } from "../../lib/progress/index.js";
import type { JournalEvent, TakeAssessed, Verdict } from "../../lib/schema/index.js";
import { eventsOf, memoryStore, type Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { quay } from "../practice/quay.js";
import { beginLessons, play } from "../progress/lessons.js";
import { startPostgres } from "../store/postgresServer.js";

/**
 * What a school asks of its store: `npm run bench -- school`. Reports of a class of 30 against reading one summary row each, whatever the length of the journals; all
 * students paged; plans that go on from what was learnt against learning anew. Times are of this machine; what is compared are ratios. STUDENTS=1000 is smaller.
 */
const STUDENTS = Number(process.env.STUDENTS ?? 10_000);
const CLASS = 30;
const PAGE = 100;
/** Journals that differ; more students have the same ones. */
const JOURNALS = 6;
const SEED = process.env.LEEWAY_SEED ?? "quay";
const course = quay({ tempi: "{ from: 60, to: 160, by: 0.1 }" });
const folder = mkdtempSync(join(tmpdir(), "leeway-school-bench-"));

/** A journal of so many takes, ten a day on three days a week, each silence with its drift and landing. */
function journalOf(student: string, takes: number): readonly JournalEvent[] {
  const chance = random(`${SEED}/${student}`);
  const lessons = beginLessons(course, student);
  for (let take = 0; take < takes; take++) {
    const drill = lessons.standing.drills.find(({ state }) => state === "open")!.drill;
    const verdict: Verdict = chance.uniform() < 0.1 ? "unclear" : chance.uniform() < 0.68 ? "within" : "beyond";
    play(lessons, course, { drill, verdict });
  }
  const drift = (): number => Math.round(chance.normal() * 400) / 10;
  return lessons.journal.map((event): JournalEvent => {
    if (event.kind !== "take assessed") return event;
    const day = Math.floor(Number(event.take.slice(1)) / 10) * (7 / 3);
    const at = new Date(Date.UTC(2024, 0, 1) + day * 86_400_000).toISOString();
    const silences = [1, 2].map(() => [drift(), 9, drift() / 20, drift()] as const);
    return { ...event, at, silences } as TakeAssessed;
  });
}

/** The median of some rounds, milliseconds. */
async function ms(work: () => Promise<unknown>, rounds = 15): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < rounds; i++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[rounds >> 1]!;
}

const courseOf = async (): Promise<Curriculum> => course;
const at = "2026-06-01T12:00:00Z";
const ofClass = (of: string, i: number): string => `${of}-${String(i).padStart(5, "0")}`;

async function fill(store: Store, of: string, takes: number, count = CLASS): Promise<readonly string[]> {
  const students = Array.from({ length: count }, (_, i) => ofClass(of, i));
  const journals = Array.from({ length: JOURNALS }, (_, i) => journalOf(`${of}/${i}`, takes));
  for (const [i, student] of students.entries()) {
    const events = journals[i % JOURNALS]!.map((event) => ({ ...event, student }));
    await store.merge({ student, curriculum: course.name }, events);
  }
  return students;
}

async function reports(store: Store): Promise<void> {
  for (const takes of [100, 1000, 3000]) {
    const students = await fill(store, `class-${takes}`, takes);
    const rows = await ms(async () => {
      for (const student of students) await store.summaries({ curriculum: course.name, students: [student] });
    });
    const report = await ms(() => reportClass(store, { at, curriculum: course.name, students, courseOf }));
    const journals = await ms(() => reportOf(store, { at, students, since: "2000-01-01", courseOf }), 3);
    console.log(
      `  a class of ${CLASS}, ${String(takes).padStart(4)} takes each: ${rows.toFixed(1)} ms a row each, report ${report.toFixed(1)} ms: ${(report / rows).toFixed(2)} x (aim: at most 5); from the journals ${journals.toFixed(0)} ms`,
    );
  }
}

async function paged(store: Store): Promise<void> {
  const students = await fill(store, "all", 60, STUDENTS);
  const start = performance.now();
  let longest = 0;
  for (let from = 0; from < students.length; from += PAGE) {
    const began = performance.now();
    const page = students.slice(from, from + PAGE);
    await reportClass(store, { at, curriculum: course.name, students: page, courseOf });
    longest = Math.max(longest, performance.now() - began);
  }
  const whole = (performance.now() - start) / 1000;
  console.log(
    `  ${STUDENTS} students in pages of ${PAGE}: ${whole.toFixed(2)} s, the longest page ${longest.toFixed(0)} ms`,
  );
}

/** Plans of one student who plays on, five takes between two of them. */
async function plans(store: Store): Promise<void> {
  const all = journalOf("plover", 1000);
  const key = { student: "plover", curriculum: course.name };
  const plan = (of: Store) => planFor(of, "plover", { course, today: "2026-06-01", minutes: 20, seed: 1 });
  const upTo = (take: number): readonly JournalEvent[] =>
    all.slice(
      0,
      all.findIndex((event) => event.kind === "take assessed" && event.take === `t${take + 1}`),
    );
  await store.merge(key, upTo(800));
  await plan(store);
  const [goneOn, anew]: [number[], number[]] = [[], []];
  for (let take = 805; take <= 900; take += 5) {
    await store.merge(key, upTo(take));
    const fresh = memoryStore();
    await fresh.merge(key, (await eventsOf(store, key)).toSorted(compareEvents));
    anew.push(await ms(() => plan(fresh), 1));
    goneOn.push(await ms(() => plan(store), 1));
  }
  const again = await ms(() => plan(store), 5);
  const without = await ms(
    () => planFor(store, "plover", { course, today: "2026-06-01", minutes: 20, seed: 1, belief: BELIEF }),
    5,
  );
  const [mean, of] = [goneOn, anew].map((times) => times.reduce((sum, each) => sum + each, 0) / times.length) as [
    number,
    number,
  ];
  const learning = (mean - without) / (of - without);
  console.log(
    `  plans every 5 takes from 800 to 900, mean: learning anew ${of.toFixed(0)} ms, gone on from ${mean.toFixed(0)} ms; the same again ${again.toFixed(0)} ms; a plan that need not learn ${without.toFixed(0)} ms`,
  );
  console.log(`  learning alone: ${learning.toFixed(2)} x (aim: at most 0.1; the first take moves on once in it)`);
}

const BELIEF = priorBelief();
const server = await startPostgres();
try {
  const sqlite = await openSqlite(join(folder, "school.sqlite"), { create: true });
  const stores: [string, typeof sqlite][] = [["SQLite", sqlite]];
  if (server === undefined) console.log("  PostgreSQL is not installed: left out");
  else stores.push(["PostgreSQL", await openPostgres(await server.database("school"), { create: true })]);
  for (const [name, opened] of stores) {
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    console.log(` ${name}, seed ${SEED}`);
    await reports(opened.value);
    await plans(opened.value);
    await paged(opened.value);
    await opened.value.close();
  }
} finally {
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
}
