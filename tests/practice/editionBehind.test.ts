import { describe, expect, test } from "vitest";
import { settingsText } from "../../lib/drill/index.js";
import { enrol, openStudent, place, planFor, submit, takeOver, useFor } from "../../lib/practice/index.js";
import { eventsOf, memoryStore, type Store } from "../../lib/store/index.js";
import { timeOf } from "../progress/course.js";
import { playTo, quay } from "./quay.js";

const OLD = quay();
const NEW = quay({ edition: "1.1.0", first: "calm", formerly: "steady", tempi: "{ from: 94, to: 106, by: 4 }" });
const KEY = { student: "tern", curriculum: "quay" };
const GONE = "dropout=1 bar,parts=kit,tempo=90";
const SHARED = "dropout=1 bar,parts=kit,tempo=94";

/** A student in the new edition, whom a program with the old one opened before. */
async function takenOver(): Promise<Store> {
  const store = memoryStore();
  await enrol(store, "tern", { course: OLD, at: timeOf(0) });
  await takeOver(store, "tern", { course: NEW, before: OLD, at: timeOf(10) });
  return store;
}

const take = (id: string, rung: string) => playTo(OLD, { id, drill: "steady", rung, how: "in time" });
const today = { today: "2026-03-03", minutes: 10, seed: 1 };

describe("a program that has an earlier edition than the student", () => {
  test("is refused whatever it asks, and writes nothing; the same take counts once with the edition that is there", async () => {
    const store = await takenOver();
    const before = await eventsOf(store, KEY);
    const at = timeOf(60);
    for (const answer of [
      await openStudent(store, "tern", { course: OLD }),
      await submit(store, "tern", take("a", SHARED), { course: OLD, at }),
      await place(store, "tern", { course: OLD, drill: "steady", at }),
      await planFor(store, "tern", { course: OLD, ...today }),
    ])
      expect(answer).toMatchObject({
        ok: false,
        problems: [{ code: "EDITION_BEHIND", message: expect.stringContaining("1.1.0") }],
      });
    expect(await eventsOf(store, KEY)).toEqual(before);
    const again = await submit(store, "tern", take("a", SHARED), { course: NEW, before: OLD, at });
    expect(again).toMatchObject({ ok: true, value: { known: false, standing: { edition: "1.1.0" } } });
  });

  test("goes on in the later edition when it is given that: nobody moves, and a rung that only it has is counted", async () => {
    const store = await takenOver();
    const use = { course: OLD, before: NEW };
    const opened = await openStudent(store, "tern", use);
    expect(opened.ok && opened.value.open.map(({ drill, rung }) => [drill.name, settingsText(rung.settings)])).toEqual([
      ["calm", SHARED],
    ]);
    for (const [id, rung] of [
      ["a", GONE],
      ["b", SHARED],
      ["c", SHARED],
    ] as const) {
      const sent = await submit(store, "tern", take(id, rung), { ...use, at: timeOf(60) });
      expect(sent).toMatchObject({ ok: true, value: { known: false, standing: { edition: "1.1.0" } } });
    }
    const again = await submit(store, "tern", take("c", SHARED), { ...use, at: timeOf(61) });
    expect(again).toMatchObject({ ok: true, value: { known: true, decision: { what: "advance" } } });
    const kinds = (await eventsOf(store, KEY)).map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === "edition changed")).toHaveLength(1);
    expect(await planFor(store, "tern", { ...use, ...today })).toMatchObject({ ok: true, value: { edition: "1.1.0" } });
    expect(await place(store, "tern", { ...use, drill: "calm", at: timeOf(70) })).toMatchObject({ ok: true });
    expect((await store.open(KEY))!.standing!.edition).toBe("1.1.0");
  });

  test("that is asked to, takes the student back", async () => {
    const store = await takenOver();
    await takeOver(store, "tern", { course: OLD, before: NEW, at: timeOf(20) });
    expect((await store.open(KEY))!.standing!.edition).toBe("1.0.0");
  });

  test.each([
    ["1.0.0", "1.0.0", true],
    ["1.0.0", "1.0.0+later", true],
    ["1.0.0-rc.1", "1.0.0", false],
    ["1.9.0", "1.10.0", false],
    ["2.0.0", "1.10.0", true],
  ])("edition %s for a student in %s may go on: %s", async (edition, held, goesOn) => {
    const store = memoryStore();
    const enrolled = await enrol(store, "tern", { course: quay({ edition: held }), at: timeOf(0) });
    expect(enrolled.ok && useFor(enrolled.value.standing, { course: quay({ edition }) }).ok).toBe(goesOn);
  });
});
