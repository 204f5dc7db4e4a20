import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  changeEdition,
  effectOfEdition,
  fold,
  journalText,
  placeByTeacher,
  readJournal,
  standingText,
} from "../../lib/progress/index.js";
import type { Standing } from "../../lib/schema/index.js";
import { exportJournals, importJournals, memoryStore, record, type Store } from "../../lib/store/index.js";
import { kinds } from "../contracts/stores.js";
import { timeOf } from "../progress/course.js";
import { goOn, pair, steps, study } from "../progress/editions.js";
import { all } from "./material.js";

/** PostgreSQL shares its statements with SQLite, a browser what it does with IndexedDB here; the suite of stores runs over all. */
const quick = kinds().filter(({ name }) => name !== "PostgreSQL" && name !== "IndexedDB in Chromium");

describe.each(quick)("editions in a store: $name", (kind) => {
  let store: Store;
  beforeAll(async () => {
    await kind.begin();
    ({ store } = await kind.fresh());
  });
  afterAll(() => kind.end());

  let count = 0;

  test("a standing goes over and back as it does without a store, a teacher's placement included, and replay gives the same bytes", async () => {
    await fc.assert(
      fc.asyncProperty(pair, steps, steps, fc.boolean(), async ({ old, now }, done, between, isUndone) => {
        const begun = study(old, done);
        const student = `student-${count++}`;
        const rename = (text: string): string => text.replaceAll('"student":"tern"', `"student":"${student}"`);
        const key = { student, curriculum: old.name };
        const own = (standing: Standing): Standing => JSON.parse(rename(standingText(standing))) as Standing;
        const { events } = readJournal(rename(journalText(begun.journal)));
        expect((await store.append(key, events, 0)).outcome).toBe("kept");

        const foreseen = effectOfEdition(now, own(begun.standing), { before: old, at: timeOf(90_000) });
        const { standing } = await record(store, key, (journal) =>
          changeEdition(now, journal!.standing!, { before: old, at: timeOf(90_000) }),
        );
        expect(standing).toEqual(foreseen.standing);
        expect(standingText((await store.open(key))!.standing!)).toBe(standingText(standing));

        const later = goOn(now, { standing, journal: [] }, { done: between, from: 2000 });
        await record(store, key, () => ({ events: later.journal, standing: later.standing }));
        // A teacher sets right by hand what an edition did.
        if (isUndone)
          await record(store, key, (journal) => {
            const placed = placeByTeacher(now, journal!.standing!, {
              drill: now.drills[0]!.name,
              rung: "1",
              at: timeOf(990_000),
              because: "The edition was a mistake.",
            });
            if (!placed.ok) throw new Error("not placed");
            return placed.value;
          });
        await record(store, key, (journal) =>
          changeEdition(old, journal!.standing!, { before: now, at: timeOf(991_000) }),
        );
        const kept = (await store.open(key))!.standing!;
        const replayed = fold(await all(store.events(key)));
        expect(replayed.problems).toEqual([]);
        expect(standingText(kept)).toBe(standingText(replayed.standing!));
        expect(kept.edition).toBe("1.0.0");
        expect(await all(store.verify(key))).toEqual([]);

        const lines = (await all(exportJournals(store, { student }))).join("");
        const elsewhere = memoryStore();
        const read = readJournal(lines);
        await importJournals(
          elsewhere,
          read.events.map((value, i) => ({ value, line: read.lines[i]! })),
        );
        expect(standingText((await elsewhere.open(key))!.standing!)).toBe(standingText(kept));
        expect((await all(exportJournals(elsewhere))).join("")).toBe(lines);
      }),
      { numRuns: 60 },
    );
  });
});
