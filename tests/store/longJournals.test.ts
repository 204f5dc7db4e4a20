import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { beginJournal, decide, fold, standingText, summarise, takeIn } from "../../lib/progress/index.js";
import type { JournalEvent, Standing } from "../../lib/schema/index.js";
import type { Store } from "../../lib/store/index.js";
import { workOut } from "../../lib/store/sql/journalWrite.js";
import { migrate } from "../../lib/store/sql/migrations.js";
import { connect, sqliteDatabase } from "../../lib/store/sqlite/connection.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { findingOf, timeOf } from "../progress/course.js";
import { all, COURSE, enrolIn, keyOf, submit } from "./material.js";
import { rawSqlite } from "./rawSqlite.js";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-long-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const opened = async (path: string, options = {}): Promise<Store> => {
  const store = await openSqlite(path, { create: true, ...options });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
};

/** A student who stays on one rung, take after take. */
async function faithful(store: Store, takes: number): Promise<void> {
  await enrolIn(store, "tern");
  const { standing } = (await store.open(keyOf("tern")))!;
  const [drill] = standing!.drills;
  const events = Array.from(
    { length: takes },
    (_, i): JournalEvent => ({
      version: 2,
      kind: "take assessed",
      id: `take:f${i}`,
      turn: standing!.latest.turn + 1 + i,
      at: timeOf(i),
      student: "tern",
      curriculum: COURSE.name,
      drill: drill!.drill,
      rung: drill!.rung!,
      take: `f${i}`,
      edition: COURSE.edition,
      verdict: i % 3 === 0 ? "unclear" : "beyond",
    }),
  );
  await store.merge(keyOf("tern"), events);
}

/** Bytes that one more take writes beside its event. */
async function written(takes: number): Promise<number> {
  const store = await opened(join(folder, `size${takes}.sqlite`));
  await faithful(store, takes);
  const events = await all(store.events(keyOf("tern")));
  await store.close();
  const folding = fold(events);
  const standing = folding.standing!;
  const { turn, at, id } = standing.latest;
  const row = {
    ...{ student: "tern", curriculum: COURSE.name, revision: 1, events: events.length },
    ...{ last_turn: turn, last_at: at, last_id: id, edition: "", latest: "", counted: 0 },
  };
  const { drill, rung } = standing.drills[0]!;
  const decided = decide(COURSE, standing, findingOf("one more", drill, rung!, "unclear"), timeOf(9e6));
  const worked = workOut(keyOf("tern"), { row, standing, summary: summarise(events, folding) }, decided.events)!;
  const { drills, rungs, summary } = worked.write;
  return JSON.stringify([drills, rungs, summary]).length;
}

describe("a long journal", () => {
  test("has no more written by a take than a short one", async () => {
    // As full as pages and lists of last takes get.
    const [short, long] = [await written(64 + 40 + 128), await written(64 * 60 + 40)];
    expect(long).toBeLessThan(1.02 * short);
  });

  test("is kept page by page as it is replayed, on both sides of full pages", async () => {
    const path = join(folder, "pages.sqlite");
    const store = await opened(path);
    await faithful(store, 190);
    for (let i = 0; i < 4; i++) await submit(store, "tern", { take: `late${i}`, verdict: "unclear" });
    expect(await all(store.verify())).toEqual([]);
    const { standing } = (await (await opened(path)).open(keyOf("tern")))!;
    expect(standing!.drills[0]!.rungs[0]!.takes).toHaveLength(194);
    expect(standingText(standing!)).toBe(standingText(fold(await all(store.events(keyOf("tern")))).standing!));
    const raw = await rawSqlite(path);
    expect(raw.values("select number from leeway_rungs where place = 0 and rung = 0 order by number")).toEqual([
      0, 1, 2, 3,
    ]);
    raw.close();
    await store.close();
  });

  test("tells what was played last, and counts all", async () => {
    const store = await opened(join(folder, "last.sqlite"));
    await faithful(store, 300);
    const [kept] = await store.summaries({ curriculum: COURSE.name, students: ["tern"] });
    const stay = kept!.summary.stays.find(({ drill }) => drill === kept!.summary.open[0]!.drill)!;
    expect([stay.takes.length, stay.tally]).toEqual([200, { within: 0, beyond: 200, unclear: 100 }]);
    await store.close();
  });

  test("of version 6 of the tables is brought up to date as it was", async () => {
    const [path, before] = [join(folder, "six.sqlite"), join(folder, "before.sqlite")];
    const store = await opened(before);
    await faithful(store, 150);
    const wanted = standingText((await store.open(keyOf("tern")))!.standing!);
    await store.close();
    const database = sqliteDatabase(path, await connect(path, { create: true }));
    await migrate(database, { upTo: 6 });
    await database.close();
    const raw = await rawSqlite(path);
    raw.exec(`attach '${before}' as b; insert into leeway_journals select * from b.leeway_journals;
      insert into leeway_events select * from b.leeway_events; insert into leeway_summaries select student, curriculum, '{}' from b.leeway_journals;
      insert into leeway_drills select student, curriculum, place, drill, head, '[]' from b.leeway_drills`);
    raw.close();
    expect(await openSqlite(path, { create: false })).toMatchObject({ problems: [{ code: "STORE_VERSION_OLDER" }] });
    const migrated = await opened(path, { migrate: true });
    expect(await all(migrated.verify())).toEqual([]);
    expect(standingText((await migrated.open(keyOf("tern")))!.standing!)).toBe(wanted);
    await migrated.close();
  });
});

describe("takeIn()", () => {
  test("finds a take in each of the standings that follow from one, also where another has it elsewhere", () => {
    const open = (standing: Standing, take: string, verdict: "within" | "beyond"): Standing => {
      const { drill, rung } = standing.drills[0]!;
      return decide(COURSE, standing, findingOf(take, drill, rung!, verdict), timeOf(1)).standing;
    };
    const begun = beginJournal(COURSE, "tern", timeOf(0)).standing;
    const [phone, school] = [open(open(begun, "b", "beyond"), "a", "within"), open(begun, "a", "beyond")];
    const verdicts = [phone, school, begun].map((each) => ["a", "b"].map((take) => takeIn(each, take)?.verdict));
    expect(verdicts).toEqual([
      ["within", "beyond"],
      ["beyond", undefined],
      [undefined, undefined],
    ]);
    const again = decide(COURSE, school, findingOf("b", "steady", school.drills[0]!.rung!, "beyond"), timeOf(2));
    expect(again.known).toBe(false);
  });
});
