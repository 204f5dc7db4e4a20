import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Door, fileDoors, memoryDoors } from "./faults.js";
import { holdsIn, placesOf, termsOf } from "./laws.js";
import { editionsOf, KEY, playTerm, type Step, type Term, termOf } from "./term.js";

let folder: string;
let count = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-deaths-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Steps of a term: few, as each of them is died at in turn. */
const STEPS = 14;

/** A term on one device in which nobody dies, so that it is known how it ends. */
const peaceful = termOf(STEPS).map(
  (term): Term => ({
    ...term,
    tablet: false,
    steps: term.steps.map(
      (step): Step => ({ ...step, dies: [], device: 0, what: step.what === "two at once" ? "take" : step.what }),
    ),
  }),
);

async function endOf(term: Term, open: () => Promise<readonly Door[]>): Promise<string> {
  const school = await open();
  try {
    await playTerm(term, { school });
    await holdsIn(school[0]!.store, termsOf(editionsOf(term), false));
    return placesOf((await school[0]!.store.open(KEY))!.standing!);
  } finally {
    for (const door of school) await door.close();
  }
}

describe.each([
  ["in memory", async () => memoryDoors(1), 10],
  ["in a file", () => fileDoors(folder, { name: `quay-${count++}`, count: 1 }), 1],
] as const)("a program that dies at a write, the store %s", (_name, open, numRuns) => {
  test("at any step, before or after the write: asked again, all ends as if nothing had happened", async () => {
    await fc.assert(
      fc.asyncProperty(peaceful, async (term) => {
        const wanted = await endOf(term, open);
        for (let i = 0; i < STEPS; i++)
          for (const dies of [["before"], ["after"], ["before", "after"]] as const) {
            const steps = term.steps.map((step, k) => (k === i ? { ...step, dies } : step));
            expect(await endOf({ ...term, steps }, open), `step ${i}, ${dies.join()}`).toBe(wanted);
          }
      }),
      { numRuns, endOnFailure: true },
    );
  });
});
