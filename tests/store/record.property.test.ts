import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import {
  beginJournal,
  changeEdition,
  compareEvents,
  decide,
  drillStanding,
  fold,
  gateMet,
  placeByTeacher,
  standingText,
} from "../../lib/progress/index.js";
import type { JournalEvent } from "../../lib/schema/index.js";
import { memoryStore, record, type Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { findingOf, timeOf } from "../progress/course.js";
import { EDITIONS, type Happening, happening } from "../progress/history.js";
import { sample } from "../samples.js";
import { all } from "./material.js";

const KEY = { student: "tern", curriculum: EDITIONS[0]!.name };

/** A term with two stores: a school's and a device's that is on line now and then; clocks go back, answers are lost, programs end. */
interface Term {
  readonly happenings: readonly Happening[];
  /** For each happening, what goes wrong around it. */
  readonly faults: readonly ("none" | "clock back" | "answer lost" | "reopened")[];
}

const term: fc.Arbitrary<Term> = fc.record({
  happenings: fc.array(happening, { minLength: 60, maxLength: 60 }),
  faults: fc.array(
    fc.constantFrom(
      "none" as const,
      "none" as const,
      "clock back" as const,
      "answer lost" as const,
      "reopened" as const,
    ),
    { minLength: 60, maxLength: 60 },
  ),
});

/** A door to a store that can be closed and opened again, as when a program ends. */
interface Door {
  store: Store;
  reopen(): Promise<void>;
}

/** Plays a term; gives every event a store acknowledged. */
async function play(
  { happenings, faults }: Term,
  [school, device]: readonly [Door, Door],
): Promise<readonly JournalEvent[]> {
  const acknowledged: JournalEvent[] = [];
  let present = school;
  let course = EDITIONS[0]!;
  for (const door of [school, device]) {
    const { events } = await record(door.store, KEY, () => beginJournal(course, KEY.student, timeOf(0)));
    acknowledged.push(...events);
  }
  for (const [i, each] of happenings.entries()) {
    const fault = faults[i]!;
    const at = timeOf(fault === "clock back" ? 5 : 60 * i);
    if (fault === "reopened") await present.reopen();
    if (each.what === "other device") present = present === school ? device : school;
    if (each.what === "edition") course = EDITIONS[each.pick % EDITIONS.length]!;
    if (each.what === "sync")
      for (const [from, to] of [
        [school, device],
        [device, school],
      ] as const)
        await to.store.merge(KEY, await all(from.store.events(KEY)));
    const { events } = await record(present.store, KEY, (journal) => {
      const standing = journal!.standing!;
      if (each.what === "edition") return changeEdition(course, standing, { at });
      const drill = course.drills[each.pick % course.drills.length]!;
      const some = settingsText(rungs(drill).at(each.level % rungs(drill).count).settings);
      if (each.what === "teacher") {
        const placed = placeByTeacher(course, standing, { drill: drill.name, rung: some, at });
        return placed.ok ? placed.value : { events: [], standing };
      }
      if (!each.what.startsWith("take")) return { events: [], standing };
      const rung = (each.what === "take" ? drillStanding(standing, drill.name)?.rung : undefined) ?? some;
      const name = each.what === "take again" ? `t${each.level % (i + 1)}` : `t${i}`;
      return decide(course, standing, findingOf(name, drill.name, rung, each.verdict), at);
    });
    acknowledged.push(...events);
    // The answer did not arrive, so the same is sent again.
    if (fault === "answer lost" && events.length > 0) await present.store.append(KEY, events, 0);
  }
  return acknowledged;
}

/** What has to hold of a store after any history. */
async function holds(store: Store): Promise<void> {
  const events = await all(store.events(KEY));
  expect(events).toEqual([...events].sort(compareEvents));
  const open = (await store.open(KEY))!;
  // The same bytes as replaying everything; no take in two places; advances rest on clean takes of their rung that meet the gate.
  expect(standingText(open.standing!)).toBe(standingText(fold(events).standing!));
  const taken = open.standing!.drills.flatMap((drill) => drill.rungs.flatMap(({ takes }) => takes));
  expect(new Set(taken).size).toBe(taken.length);
  for (const event of events) {
    if (event.kind !== "advanced" && event.kind !== "drill completed") continue;
    if (event.credit === undefined) expect(gateMet(event.gate, event.evidence.length, event.against.length)).toBe(true);
  }
  expect(await all(store.verify())).toEqual([]);
}

describe("stores, decisions and devices together", () => {
  test("nothing acknowledged is lost, and both stores amount to the same once they have met", async () => {
    const folder = mkdtempSync(join(tmpdir(), "leeway-term-"));
    let count = 0;
    const sqlite = async (): Promise<Door> => {
      const path = join(folder, `${count++}.sqlite`);
      const open = async (): Promise<Store> => {
        const opened = await openSqlite(path, { create: true });
        if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
        return opened.value;
      };
      const door: Door = {
        store: await open(),
        reopen: async () => {
          await door.store.close();
          door.store = await open();
        },
      };
      return door;
    };
    try {
      await fc.assert(
        fc.asyncProperty(term, async (history) => {
          const memory: Door = { store: memoryStore(), reopen: async () => undefined };
          const doors = [await sqlite(), memory] as const;
          const acknowledged = await play(history, doors);
          for (const { store } of doors) await holds(store);
          const [school, device] = doors;
          await school.store.merge(KEY, await all(device.store.events(KEY)));
          await device.store.merge(KEY, (await all(school.store.events(KEY))).reverse());
          const texts = new Set((await all(school.store.events(KEY))).map((event) => JSON.stringify(event)));
          for (const event of acknowledged)
            expect(texts).toContain(JSON.stringify(JSON.parse(JSON.stringify(event), sortKeys)));
          for (const { store } of doors) await holds(store);
          expect(standingText((await school.store.open(KEY))!.standing!)).toBe(
            standingText((await device.store.open(KEY))!.standing!),
          );
          await school.store.close();
        }),
        // Terms are long, so few are enough: our choice, some seconds.
        { numRuns: sample({ suite: 25, proof: 500 }), endOnFailure: true },
      );
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

/** Kept events are in canonical form: the same keys in their order. */
function sortKeys(_key: string, value: unknown): unknown {
  if (value === null || typeof value !== "object" || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
