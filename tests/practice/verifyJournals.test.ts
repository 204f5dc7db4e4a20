import { describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { verifyJournals } from "../../lib/practice/index.js";
import { beginJournal, changeEdition, decide, fold } from "../../lib/progress/index.js";
import type { JournalEvent, Verdict } from "../../lib/schema/index.js";
import { memoryStore, type Store } from "../../lib/store/index.js";
import { findingOf, timeOf } from "../progress/course.js";
import { all } from "../store/material.js";

const KEY = { student: "tern", curriculum: "quay" };

interface Edition {
  readonly edition?: string;
  readonly gate?: string;
  readonly from?: number;
}

const textOf = ({ edition = "1.0.0", gate = "{ in-a-row: 2 }", from = 90 }: Edition = {}): string => `curriculum: quay
edition: ${edition}
title: Quay
patterns:
  bollard:
    meter: 4/4
    bars: 2
    parts:
      kit: { voices: { hat: x-x-x-x- | ... } }
      lead: { instrument: trumpet, notes: "1/4 C4 D4 E4 F4 | ..." }
drills:
  steady:
    pattern: bollard
    student: lead
    phrases: 2
    dropout: { length: 1 bar, parts: [kit] }
    ladders: [{ tempo: { from: ${from}, to: 98, by: 4 } }]
    mixes: { play: { lead: off } }
    tolerance: { drift: 8 %, steadiness: 45 ms }
    gate: ${gate}
    go-back: { after: 2 }
  later:
    pattern: bollard
    student: lead
    phrases: 2
    needs: [steady]
    dropout: { length: 1 bar, parts: [kit] }
    ladders: [{ tempo: [100] }]
    mixes: { play: { lead: off } }
    tolerance: { drift: 8 %, steadiness: 45 ms }
    gate: ${gate}
`;

function courseFrom(edition?: Edition) {
  const read = readCurriculum(textOf(edition), { file: "quay.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

async function storeWith(events: readonly unknown[], ...editions: readonly Edition[]): Promise<Store> {
  const store = memoryStore();
  for (const edition of editions)
    await store.keepCourse({
      curriculum: "quay",
      edition: edition.edition ?? "1.0.0",
      file: "quay.yaml",
      text: textOf(edition),
      files: {},
    });
  await store.merge(KEY, events);
  return store;
}

const rung = (tempo: number): string => `dropout=1 bar,parts=kit,tempo=${tempo}`;
const codesIn = async (store: Store): Promise<readonly string[]> =>
  (await all(verifyJournals(store))).map(({ code }) => code);

/** A journal in which takes of these verdicts are played, each to the rung the student is on. */
function played(verdicts: readonly Verdict[], { edition }: { readonly edition?: Edition } = {}) {
  const course = courseFrom(edition);
  const begun = beginJournal(course, "tern", timeOf(0));
  let { standing } = begun;
  const events: JournalEvent[] = [...begun.events];
  verdicts.forEach((verdict, i) => {
    const held = standing.drills.find(({ drill }) => drill === "steady")!;
    const decided = decide(course, standing, findingOf(`t${i}`, "steady", held.rung!, verdict), timeOf(60 + i));
    standing = decided.standing;
    events.push(...decided.events);
  });
  return { course, standing, events };
}

const [w, b] = ["within", "beyond"] as const;

describe("verifyJournals()", () => {
  test("finds nothing in what the course decided: advances, steps back, completions, drills that open", async () => {
    const { events } = played([w, w, b, b, w, w, w, w, w, w, w, w]);
    const kinds = new Set(events.map(({ kind }) => kind));
    for (const kind of ["advanced", "gone back", "drill completed", "drill opened"]) expect(kinds).toContain(kind);
    expect(await codesIn(await storeWith(events, {}))).toEqual([]);
  });

  test.each([
    ["a gate of its own", { gate: { kind: "in a row", count: 1 }, evidence: ["t0"] }],
    ["a rung that is not the next", { to: rung(98) }],
    ["a rung there is not", { to: rung(300) }],
  ])("finds a forged advance with %s, which a journal takes", async (_what, forged) => {
    const { events } = played([w, w]);
    const advance = { ...events.at(-1)!, ...forged, id: "advanced:forged" };
    const store = await storeWith([...events.slice(0, -1), advance], {});
    expect((await store.open(KEY))!.standing!.drills[0]!.rung).toBe("to" in forged ? forged.to : rung(94));
    expect(await all(verifyJournals(store, KEY))).toMatchObject([
      { code: "DECISION_NOT_OF_COURSE", severity: "error", remedy: expect.stringContaining("teacher") },
    ]);
  });

  test("finds a drill that was opened without the drills it needs, and a step back the drill does not take", async () => {
    const { events, standing } = played([w, w, b]);
    const { student, curriculum } = KEY;
    const common = { version: 2, turn: standing.latest.turn + 1, at: timeOf(900), student, curriculum };
    const opened = { ...common, id: "a", kind: "drill opened", drill: "later", to: rung(100), needs: [] };
    const back = { ...common, id: "b", kind: "gone back", drill: "steady", from: rung(94), to: rung(90) };
    const store = await storeWith([...events, opened, { ...back, after: 1, evidence: ["t2"], lapsed: [] }], {});
    expect(await codesIn(store)).toEqual(["DECISION_NOT_OF_COURSE", "DECISION_NOT_OF_COURSE"]);
  });

  test("compares with the edition a device decided in, also when another device was in a later one", async () => {
    const later: Edition = { edition: "1.1.0", gate: "{ in-a-row: 3 }" };
    const one = played([w]);
    const two = played([w, w]);
    const changed = changeEdition(courseFrom(later), one.standing, { at: timeOf(70), before: one.course });
    const events = [...two.events, ...changed.events];
    expect(fold(events).standing!.edition).toBe("1.1.0");
    expect(await codesIn(await storeWith(events, {}, later))).toEqual([]);
  });

  test("compares with each text that was kept for an edition, and says once which edition it could not compare", async () => {
    const { events } = played([w, w, w, w]);
    expect(await codesIn(await storeWith(events, {}, { gate: "{ in-a-row: 4 }" }))).toEqual([]);
    expect(await all(verifyJournals(await storeWith(events)))).toMatchObject([
      { code: "EDITION_NOT_COMPARED", severity: "advice" },
    ]);
  });
});
