import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { reportClass, reportOf } from "../../lib/practice/index.js";
import type { JournalEvent } from "../../lib/schema/index.js";
import { memoryStore, type Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { EDITIONS } from "../progress/history.js";
import { CURRICULUM, classOf, reportOf as reportOfEvents } from "../report/journals.js";
import { sample } from "../samples.js";

const at = "2026-06-01T12:00:00Z";
const courseOf = async (_: string, edition: string) => EDITIONS.find((course) => course.edition === edition);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-summaries-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Events in pieces of so many, the pieces in their order or not: one after another is gone on from, anything else is worked out anew. */
function pieces(
  events: readonly JournalEvent[],
  size: number,
  isInOrder: boolean,
): readonly (readonly JournalEvent[])[] {
  const all: JournalEvent[][] = [];
  for (let from = 0; from < events.length; from += size) all.push(events.slice(from, from + size));
  return isInOrder ? all : all.reverse();
}

test("a report from what stores keep beside journals is the report from the journals, however they came in", async () => {
  let count = 0;
  await fc.assert(
    fc.asyncProperty(classOf, fc.integer({ min: 1, max: 40 }), fc.boolean(), async (pupils, size, isInOrder) => {
      const opened = await openSqlite(join(folder, `${count++}.sqlite`), { create: true });
      if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
      const stores: readonly Store[] = [opened.value, memoryStore()];
      const wanted = reportOfEvents(pupils, { at });
      const students = pupils.map(({ student }) => student);
      for (const store of stores) {
        for (const { student, events } of pupils)
          for (const some of pieces(events, size, isInOrder))
            await store.merge({ student, curriculum: CURRICULUM }, some);
        const told = await reportClass(store, {
          at,
          curriculum: CURRICULUM,
          students: [...students, "nobody"],
          courseOf,
        });
        expect(told).toEqual(wanted);
        const everybody = await reportOf(store, { at, courseOf });
        expect(everybody.ok && everybody.value.report).toEqual(wanted);
        for await (const problem of store.verify()) expect(problem).toBeUndefined();
      }
      await opened.value.close();
    }),
    { numRuns: sample({ suite: 25, proof: 500 }), endOnFailure: true },
  );
});
