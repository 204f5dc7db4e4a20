import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { standingText } from "../../lib/progress/index.js";
import type { JournalEvent } from "../../lib/schema/index.js";
import { sample } from "../samples.js";
import { all } from "../store/material.js";
import { type Door, fileDoors, memoryDoors } from "./faults.js";
import { holdsIn, plansWell, termsOf, travelsFrom, unclearChangesNothing } from "./laws.js";
import { editionsOf, KEY, playTerm, type Term, termOf, type Watch } from "./term.js";

let folder: string;
let count = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-whole-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const kinds: readonly (readonly [name: string, open: () => Promise<readonly Door[]>, runs: number, steps: number])[] = [
  ["in memory", async () => memoryDoors(2), sample({ suite: 25, proof: 1000 }), 150],
  [
    "in a file",
    () => fileDoors(folder, { name: `school-${count++}`, count: 2 }),
    sample({ suite: 10, proof: 200 }),
    60,
  ],
];

/** A death loses nothing that was there, and leaves none or all of what was being written. */
const allOrNothing: NonNullable<Watch["died"]> = (before, after) => {
  const texts = new Set(after.map((event) => JSON.stringify(event)));
  for (const event of before) expect(texts).toContain(JSON.stringify(event));
};

/** Plays a term and looks at everything; gives the events of the school. */
async function judged(term: Term, school: readonly Door[]): Promise<readonly JournalEvent[]> {
  const tablet = term.tablet ? memoryDoors(1)[0]! : undefined;
  const editions = editionsOf(term);
  const watch: Watch = {
    decided: unclearChangesNothing,
    plan: async (store, step, course) => void (await plansWell(store, step, course)),
    died: allOrNothing,
  };
  await playTerm(term, { school, watch, ...(tablet === undefined ? {} : { tablet }) });
  const terms = termsOf(editions, term.tablet);
  const events = await holdsIn(school[0]!.store, terms);
  await travelsFrom(school[0]!.store);
  const { edition } = (await school[0]!.store.open(KEY))!.standing!;
  await plansWell(school[0]!.store, term.steps[0]!, editions.get(edition)!);
  if (tablet !== undefined) {
    await holdsIn(tablet.store, terms);
    await school[1]!.store.merge(KEY, await all(tablet.store.events(KEY)));
    await tablet.store.merge(KEY, (await all(school[0]!.store.events(KEY))).reverse());
    const [here, there] = await Promise.all([school[0]!, tablet].map(({ store }) => store.open(KEY)));
    expect(standingText(there!.standing!)).toBe(standingText(here!.standing!));
  }
  return events;
}

describe.each(kinds)("random students in random courses, the store %s", (_name, open, numRuns, steps) => {
  test("the invariants of progress hold, whatever dies, comes late, twice or at once", async () => {
    const kindsSeen = new Set<string>();
    await fc.assert(
      fc.asyncProperty(termOf(steps), async (term) => {
        const school = await open();
        try {
          for (const { kind } of await judged(term, school)) kindsSeen.add(kind);
        } finally {
          for (const door of school) await door.close();
        }
      }),
      { numRuns, endOnFailure: true },
    );
    // The terms were not dull: everything that can happen to a student did.
    expect([...kindsSeen].sort()).toEqual([
      "advanced",
      "drill completed",
      "drill opened",
      "edition changed",
      "enrolled",
      "gone back",
      "set by teacher",
      "take assessed",
    ]);
  });
});
