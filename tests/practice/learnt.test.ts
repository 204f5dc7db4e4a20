import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { beliefText, historyOf, learnFrom, priorBelief, readBelief, updateBelief } from "../../lib/plan/index.js";
import { planFor } from "../../lib/practice/index.js";
import type { JournalEvent, Verdict } from "../../lib/schema/index.js";
import { isStoreProblem, memoryStore, type Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { beginLessons, play } from "../progress/lessons.js";
import { rawSqlite } from "../store/rawSqlite.js";
import { quay } from "./quay.js";

const KEY = { student: "tern", curriculum: "quay" };
const course = quay({ tempi: "{ from: 60, to: 139, by: 1 }" });
/** The same course with another tolerance under the same edition. */
const other = {
  ...course,
  drills: course.drills.map((drill) => ({ ...drill, tolerance: { steadiness: drill.tolerance.steadiness! } })),
};

/** A journal of so many takes. */
const journal: readonly JournalEvent[] = (() => {
  const lessons = beginLessons(course);
  const chance = random("what is learnt");
  for (let take = 0; take < 430; take++) {
    const drill = lessons.standing.drills.find(({ state }) => state === "open")!.drill;
    const verdict: Verdict = chance.uniform() < 0.1 ? "unclear" : chance.uniform() < 0.6 ? "within" : "beyond";
    play(lessons, course, { drill, verdict });
  }
  return lessons.journal;
})();

/** The events up to a take, and what was decided on it. */
function upTo(take: number): readonly JournalEvent[] {
  const next = journal.findIndex((event) => event.kind === "take assessed" && event.take === `t${take + 1}`);
  return next < 0 ? journal : journal.slice(0, next);
}

let folder: string;
let path: string;
let store: Store;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "leeway-learnt-"));
  path = join(folder, "school.sqlite");
  const opened = await openSqlite(path, { create: true });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  store = opened.value;
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

async function planOf(of: Store, use = course): Promise<unknown> {
  const plan = await planFor(of, "tern", { course: use, today: "2026-03-12", minutes: 20, seed: 1 });
  if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
  return plan.value;
}

/** The plan when nothing was kept: from a store that keeps nothing. */
async function planAnew(events: readonly JournalEvent[], use = course): Promise<unknown> {
  const fresh = memoryStore();
  await fresh.merge(KEY, events);
  return planOf(fresh, use);
}

describe("what is learnt of a student", () => {
  test("is gone on from, and the plan is the one of learning anew, before and after the first take moves on", async () => {
    for (const take of [0, 7, 299, 302, 430]) {
      await store.merge(KEY, upTo(take));
      const wanted = await planAnew(upTo(take));
      expect(await planOf(store)).toEqual(wanted);
      const kept = await store.learnt!.read(KEY);
      expect(kept?.takes).toBe(take);
      // Asked again, nothing is learnt and nothing is written.
      expect(await planOf(store)).toEqual(wanted);
      expect(await store.learnt!.read(KEY)).toEqual(kept);
    }
  }, 60_000);

  test("is what the plan rests on: another belief kept on the same basis makes another plan", async () => {
    const kept = (await store.learnt!.read(KEY))!;
    const wanted = await planOf(store);
    const [from, to] = kept.body.split(" ");
    await store.learnt!.keep(KEY, { ...kept, body: `${from} ${to} ${beliefText(priorBelief())}` });
    expect(await planOf(store)).not.toEqual(wanted);
    await store.learnt!.keep(KEY, kept);
    expect(await planOf(store)).toEqual(wanted);
  });

  test("is learnt anew where it rests on other takes, another course, or is not what was kept", async () => {
    const wanted = await planOf(store);
    const raw = await rawSqlite(path);
    for (const statement of [
      "update leeway_learnt set body = replace(body, 'A', 'B')",
      "update leeway_learnt set body = 'nothing'",
      "update leeway_learnt set basis = 'x'",
      "delete from leeway_learnt",
    ]) {
      raw.exec(statement);
      expect(await planOf(store)).toEqual(wanted);
    }
    raw.close();
    expect(await planOf(store, other)).toEqual(await planAnew(journal, other));
    // A take that another device played earlier and sends now.
    const early = journal.find((event) => event.kind === "take assessed" && event.take === "t200")!;
    const late = { ...early, id: "take:late", take: "late" } as JournalEvent;
    await store.merge(KEY, [late]);
    expect(await planOf(store)).toEqual(await planAnew([...journal, late]));
  }, 60_000);

  test("is erased with the student, and is kept for nobody who is not there", async () => {
    const kept = (await store.learnt!.read(KEY))!;
    await store.erase("tern");
    expect(await store.learnt!.read(KEY)).toBeUndefined();
    await expect(store.learnt!.keep(KEY, kept)).rejects.toSatisfy(isStoreProblem);
  });

  test("fewer takes than before teach what they teach: a belief of more is not gone on from", () => {
    const { takes } = historyOf(journal);
    const all = learnFrom(course, { takes });
    const some = learnFrom(course, { takes: takes.slice(0, 410) });
    expect(learnFrom(course, { takes: takes.slice(0, 410) }, { known: all })).toEqual(some);
    expect(learnFrom(course, { takes }, { known: some })).toEqual(all);
  });
});

describe("beliefText()", () => {
  test("keeps every bit of a belief", () => {
    const prior = priorBelief();
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 7 }), (values) => {
        const belief = { ...prior, particles: { ...prior.particles, weight: Float64Array.from(values) } };
        const read = readBelief(beliefText(belief))!;
        expect(read).toEqual(belief);
        expect([...read.particles.weight].map((value, i) => Object.is(value, values[i]))).not.toContain(false);
      }),
    );
    const demand = { silences: [], landingMs: 90, steadinessMs: 40, accompaniedNotes: 20, accompaniedBeats: 16 };
    const after = updateBelief(prior, { demand, verdict: "beyond" });
    expect(readBelief(beliefText(after))).toEqual(after);
  });

  test("is read from no other text", () => {
    const text = beliefText(priorBelief());
    for (const wrong of [
      "",
      "{}",
      "null",
      text.slice(0, -9),
      text.replace('"weight":"', '"weight":"*'),
      text.replace('"weight":"', '"weight":"AAAA'),
    ])
      expect(readBelief(wrong)).toBeUndefined();
  });
});
