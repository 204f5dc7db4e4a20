import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { fold, standingText, takeIn } from "../../lib/progress/index.js";
import type { JournalEvent, Standing } from "../../lib/schema/index.js";
import { importJournals, memoryStore, type Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { sample } from "../samples.js";
import { all } from "../store/material.js";
import { rawSqlite } from "../store/rawSqlite.js";
import { memoryDoors } from "./faults.js";
import { holdsIn, shuffled, termsOf } from "./laws.js";
import { editionsOf, KEY, playTerm, type Term, termOf } from "./term.js";
import { valueIn } from "./valueIn.js";

let folder: string;
let count = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-damage-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const STEPS = 40;

async function journalOf(term: Term): Promise<readonly JournalEvent[]> {
  const [door] = memoryDoors(1);
  await playTerm({ ...term, tablet: false }, { school: [door!] });
  return all(door!.store.events(KEY));
}

/** What may stand in a file among good events: the code it is refused with, and what stands there. */
const SPOILT: readonly (readonly [code: string, spoil: (event: JournalEvent) => unknown])[] = [
  ["EVENT_MALFORMED", () => null],
  ["EVENT_MALFORMED", ({ turn: _turn, ...rest }) => rest],
  ["EVENT_MALFORMED", (event) => ({ ...event, at: "this morning" })],
  ["EVENT_MALFORMED", (event) => ({ ...event, mood: "good" })],
  ["EVENT_VERSION_UNKNOWN", (event) => ({ ...event, version: 3 })],
  ["EVENT_KIND_UNKNOWN", (event) => ({ ...event, kind: "praised" })],
];

/** Decisions somebody made up: kept, as what they rest on may still arrive, and without effect. */
const FORGED: readonly ((event: JournalEvent) => object)[] = [
  ({ version, at, student, curriculum }) => {
    const gate = { kind: "in a row", count: 1 } as const;
    const common = {
      version,
      kind: "drill completed",
      at,
      student,
      curriculum,
      drill: "drill-0",
      from: "tempo=1",
      gate,
    };
    return { ...common, id: "forged:1", turn: 900_000, evidence: ["never played"], against: [] };
  },
  ({ version, at, student, curriculum }) => {
    const common = { version, kind: "drill opened", at, student, curriculum, drill: "drill-9" };
    return { ...common, id: "forged:2", turn: 900_001, to: "tempo=1", needs: ["drill-8"] };
  },
];

/** An advance on a single clean take, where nine were asked for. */
function tooSoon(take: JournalEvent, standing: Standing): object {
  if (take.kind !== "take assessed") throw new TypeError(take.kind);
  const { version, at, student, curriculum } = take;
  // The drill may have another name by now.
  const { drill, rung } = takeIn(standing, take.take)!;
  const gate = { kind: "in a row", count: 9 } as const;
  const common = { version, kind: "drill completed", at, student, curriculum, drill, from: rung, gate };
  return { ...common, id: "forged:3", turn: 900_002, evidence: [take.take], against: [] };
}

async function standingIn(store: Store): Promise<string> {
  return standingText((await store.open(KEY))!.standing!);
}

describe("a corrupt or foreign journal", () => {
  test("is refused line by line, each with its code, and what is good is kept and comes to the same", async () => {
    await fc.assert(
      fc.asyncProperty(
        termOf(STEPS),
        fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 12 }),
        fc.nat(),
        async (term, spoiling, seed) => {
          const events = await journalOf(term);
          const wanted: string[] = [];
          const bad = spoiling.map(([place, way]) => {
            const [code, spoil] = SPOILT[way % SPOILT.length]!;
            return { code, value: spoil(events[place % events.length]!) };
          });
          const lines = shuffled(
            [...events.map((value) => ({ code: "", value: value as unknown })), ...bad],
            `${seed}`,
          );
          lines.forEach(({ code }, i) => void (code !== "" && wanted.push(`${i + 1} ${code}`)));
          const store = memoryStore();
          // A journal of somebody else in the same file is theirs, and changes nothing here.
          const theirs = events.map((event) => ({ ...event, student: "gull" }));
          const read = await importJournals(store, [
            ...lines.map(({ value }, i) => ({ value, line: i + 1 })),
            ...theirs.map((value, i) => ({ value, line: lines.length + i + 1 })),
          ]);
          expect(read.problems.map(({ where, code }) => `${where.line} ${code}`).sort()).toEqual(wanted.sort());
          expect(await standingIn(store)).toBe(standingText(fold(events).standing!));
          const foreign = await store.merge(KEY, theirs);
          expect(foreign.problems.map(({ code }) => code)).toEqual(theirs.map(() => "EVENT_FOREIGN"));
          const clean = events.find((event) => event.kind === "take assessed" && event.verdict === "within");
          const forged = [
            ...FORGED.map((forge) => forge(events[0]!)),
            ...(clean === undefined ? [] : [tooSoon(clean, fold(events).standing!)]),
          ];
          await store.merge(KEY, forged);
          const folded = fold(await all(store.events(KEY)));
          const errors = folded.problems.filter(({ severity }) => severity === "error");
          expect(errors.map(({ code }) => code).sort()).toEqual(
            ["EVIDENCE_UNKNOWN", ...(clean === undefined ? [] : ["GATE_NOT_MET"]), "NEEDS_NOT_MET"].sort(),
          );
          expect(await standingIn(store)).toBe(standingText(fold(events).standing!));
        },
      ),
      { numRuns: sample({ suite: 25, proof: 500 }), endOnFailure: true },
    );
  });

  test("that was altered inside its file is found out event by event, and repaired to what the others amount to", async () => {
    await fc.assert(
      fc.asyncProperty(termOf(STEPS), fc.array(fc.nat(), { minLength: 1, maxLength: 4 }), async (term, places) => {
        const events = await journalOf(term);
        const path = join(folder, `${count++}.sqlite`);
        const first = valueIn(await openSqlite(path, { create: true }));
        await first.merge(KEY, events);
        await first.close();
        // Never the enrolment: without it nothing is left to look at.
        const altered = [...new Set(places.map((place) => events[1 + (place % (events.length - 1))]!))];
        const raw = await rawSqlite(path);
        for (const { id, turn } of altered) {
          const changed = raw
            .prepare(
              "update leeway_events set body = replace(body, '2026-03-02', '2026-03-03') where id = ? and turn = ?",
            )
            .run([id, turn]);
          expect(changed.changes).toBe(1);
        }
        raw.close();
        const store = valueIn(await openSqlite(path, { create: false }));
        const found = await all(store.verify(KEY));
        for (const { id } of altered)
          expect(
            found.filter(({ code, message }) => code === "EVENT_ALTERED" && message.includes(`event ${id} `)),
          ).toHaveLength(1);
        expect(found.filter(({ code }) => code === "EVENT_ALTERED")).toHaveLength(altered.length);
        expect(await store.repair(KEY)).toBe(altered.length);
        const good = events.filter((event) => !altered.includes(event));
        expect(await standingIn(store)).toBe(standingText(fold(good).standing!));
        // A journal with holes is no longer alone on what it knew; the invariants hold all the same.
        await holdsIn(store, { ...termsOf(editionsOf(term), false), alone: false });
        // And what was lost can be brought back.
        await store.merge(KEY, events);
        expect(await standingIn(store)).toBe(standingText(fold(events).standing!));
        await store.close();
      }),
      { numRuns: sample({ suite: 10, proof: 200 }), endOnFailure: true },
    );
  });
});
