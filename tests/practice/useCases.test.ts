import { describe, expect, test } from "vitest";
import type { problemsIn } from "../../lib/base/index.js";
import { settingsText } from "../../lib/drill/index.js";
import {
  checkCourse,
  chooseDrill,
  enrol,
  findJournal,
  keptCourse,
  keptCourses,
  openStudent,
  place,
  planFor,
  reportOf,
  submit,
  takeOver,
} from "../../lib/practice/index.js";
import { beginJournal, effectOfEdition } from "../../lib/progress/index.js";
import { memoryStore, type Store } from "../../lib/store/index.js";
import { timeOf } from "../progress/course.js";
import { all } from "../store/material.js";
import { worded } from "../words/worded.js";
import { playTo, quay } from "./quay.js";

const COURSE = quay();
const KEY = { student: "tern", curriculum: "quay" };
const FIRST = "dropout=1 bar,parts=kit,tempo=90";

async function enrolled(...students: readonly string[]): Promise<Store> {
  const store = memoryStore();
  for (const student of students) await enrol(store, student, { course: COURSE, at: timeOf(0) });
  return store;
}

const codesOf = (result: Parameters<typeof problemsIn>[0]): readonly string[] => worded(result).map(({ code }) => code);

describe("enrol()", () => {
  test("begins a course once; sent again it changes nothing and says so", async () => {
    const store = memoryStore();
    const first = await enrol(store, "tern", { course: COURSE, at: timeOf(0) });
    expect(first).toMatchObject({ ok: true, value: { known: false, standing: { student: "tern" } } });
    const again = await enrol(store, "tern", { course: quay({ edition: "2.0.0" }), at: timeOf(60) });
    expect(again).toMatchObject({ ok: true, value: { known: true, events: [], standing: { edition: "1.0.0" } } });
    expect(await all(store.events(KEY))).toHaveLength(2);
  });

  test("refuses names that a journal cannot hold", async () => {
    const store = memoryStore();
    for (const name of ["", "x".repeat(201)])
      expect(codesOf(await enrol(store, name, { course: COURSE, at: timeOf(0) }))).toEqual(["STUDENT_NAME_LENGTH"]);
    expect(await all(store.journals())).toEqual([]);
  });

  test.each([
    ["a\u0007b", 1, "ab"],
    ["a\u202eb", 1, "ab"],
    ["\u061ctern", 0, "tern"],
    ["te\u200brn", 2, "tern"],
    [" tern", 0, "tern"],
    ["tern\u00a0", 4, "tern"],
    ["tern\n", 4, "tern"],
    ["🐦\ud800", 1, "🐦"],
    ["\u200e", 0, undefined],
  ])("refuses %j as the name of a new student, with the place and another name", async (name, offset, better) => {
    const store = memoryStore();
    const refused = await enrol(store, name, { course: COURSE, at: timeOf(0) });
    expect(refused).toMatchObject({ ok: false, problems: [{ code: "STUDENT_NAME_UNSEEN", where: { offset } }] });
    const remedy = refused.ok ? undefined : refused.problems[0]!.remedy;
    expect(remedy).toBe(better === undefined ? "a pseudonym is enough" : `write ${better}`);
    expect(await all(store.journals())).toEqual([]);
    // A student who has the name already is still there.
    const begun = beginJournal(COURSE, name, timeOf(0));
    await store.merge({ student: name, curriculum: COURSE.name }, begun.events);
    expect(await enrol(store, name, { course: COURSE, at: timeOf(0) })).toMatchObject({
      ok: true,
      value: { known: true },
    });
  });

  test.each(["tern", "Zoë O'Gull", "مرغ\u200cدریایی", "क्\u200dष", "gull 2", "鴎"])("enrols %s", async (name) => {
    expect(await enrol(memoryStore(), name, { course: COURSE, at: timeOf(0) })).toMatchObject({ ok: true });
  });

  test("many devices at once begin one journal", async () => {
    const store = memoryStore();
    const begun = await Promise.all([0, 1, 2, 3].map((i) => enrol(store, "tern", { course: COURSE, at: timeOf(i) })));
    expect(begun.filter((each) => each.ok && !each.value.known)).toHaveLength(1);
  });
});

describe("findJournal()", () => {
  test("finds the student's only course, and asks when there are several", async () => {
    const store = await enrolled("tern");
    expect(await findJournal(store, "tern")).toMatchObject({ ok: true, value: { curriculum: "quay" } });
    expect(codesOf(await findJournal(store, "tern", "pier"))).toEqual(["NOT_ENROLLED_IN_COURSE"]);
    expect(await findJournal(store, "terne")).toMatchObject({
      problems: [{ code: "STUDENT_UNKNOWN", remedy: expect.stringContaining("write tern") }],
    });
    await enrol(store, "tern", { course: { ...COURSE, name: "pier" }, at: timeOf(0) });
    expect(codesOf(await findJournal(store, "tern"))).toEqual(["COURSE_NOT_CHOSEN"]);
  });
});

describe("openStudent()", () => {
  test("tells each open drill with its rung, in the edition in use, and writes nothing", async () => {
    const store = await enrolled("tern");
    const opened = await openStudent(store, "tern", { course: COURSE });
    expect(opened.ok && opened.value.open.map(({ rung }) => settingsText(rung.settings))).toEqual([FIRST]);
    const next = quay({ edition: "2.0.0", first: "calm", formerly: "steady" });
    const renamed = await openStudent(store, "tern", { course: next, before: COURSE });
    expect(renamed).toMatchObject({
      ok: true,
      value: { standing: { edition: "2.0.0" }, open: [{ drill: { name: "calm" } }] },
    });
    expect(await store.open(KEY)).toMatchObject({ events: 2, edition: "1.0.0" });
  });
});

describe("chooseDrill()", () => {
  test("takes the only open drill, a drill by a former name, and asks otherwise", async () => {
    const store = await enrolled("tern");
    const { standing } = (await store.open(KEY))!;
    expect(chooseDrill(COURSE, standing!)).toMatchObject({ ok: true, value: { drill: { name: "steady" } } });
    const renamed = quay({ edition: "2.0.0", first: "calm", formerly: "steady" });
    expect(chooseDrill(renamed, standing!, "steady")).toMatchObject({ ok: true, value: { drill: { name: "calm" } } });
    expect(codesOf(chooseDrill(COURSE, { ...standing!, drills: [] }))).toEqual(["DRILL_NOT_CHOSEN"]);
    expect(codesOf(chooseDrill(COURSE, standing!, "stedy"))).toEqual(["DRILL_UNKNOWN"]);
  });
});

describe("takeOver()", () => {
  test("does what effectOfEdition says, once", async () => {
    const store = await enrolled("tern");
    const next = quay({ edition: "2.0.0", tempi: "{ from: 94, to: 102, by: 4 }" });
    const { standing } = (await store.open(KEY))!;
    const said = effectOfEdition(next, standing!, { at: timeOf(60), before: COURSE });
    const taken = await takeOver(store, "tern", { course: next, before: COURSE, at: timeOf(60) });
    expect(taken).toEqual({ ok: true, value: said, advice: [] });
    expect((await store.open(KEY))!.standing).toEqual(said.standing);
    const again = await takeOver(store, "tern", { course: next, before: COURSE, at: timeOf(90) });
    expect(again).toMatchObject({ ok: true, value: { events: [] } });
    expect(codesOf(await takeOver(store, "knot", { course: next, at: timeOf(60) }))).toEqual(["STUDENT_UNKNOWN"]);
  });
});

describe("place()", () => {
  test("asks for takes until it is done, and puts the student there once; a take sent again changes nothing", async () => {
    const store = await enrolled("tern");
    const use = { course: COURSE, drill: "steady", at: timeOf(60) };
    let placed = await place(store, "tern", use);
    for (let i = 0; i < 20 && placed.ok && !placed.value.placing.done; i++) {
      const rung = settingsText(placed.value.placing.rung.settings);
      const take = playTo(COURSE, { id: `p${i}`, drill: "steady", rung, how: "in time" });
      placed = await place(store, "tern", { ...use, take });
      const size = (await store.open(KEY))!.events;
      const again = await place(store, "tern", { ...use, take });
      expect(again).toMatchObject({ ok: true, value: { submitted: { known: true }, events: [] } });
      expect((await store.open(KEY))!.events).toBe(size);
    }
    expect(placed).toMatchObject({ ok: true, value: { placing: { done: true } } });
    const events = await all(store.events(KEY));
    expect(events.filter(({ kind }) => kind === "set by teacher")).toHaveLength(
      placed.ok ? placed.value.events.length : -1,
    );
  });

  test("a take without its rung is refused", async () => {
    const store = await enrolled("tern");
    const take = { id: "p", onsets: [0] };
    // @ts-expect-error: it does not compile; a program in JavaScript is told
    const placed = await place(store, "tern", { course: COURSE, at: timeOf(60), take });
    expect(codesOf(placed)).toEqual(["TAKE_RUNG_NOT_SAID", "TAKE_RUNG_NOT_SAID"]);
  });
});

describe("planFor() and reportOf()", () => {
  test("rest on what is in the store", async () => {
    const store = await enrolled("tern", "knot");
    const take = playTo(COURSE, { id: "a", drill: "steady", rung: FIRST, how: "in time" });
    await submit(store, "tern", take, { course: COURSE, at: timeOf(60) });
    const plan = await planFor(store, "tern", { course: COURSE, today: "2026-03-03", minutes: 10, seed: 1 });
    expect(plan).toMatchObject({ ok: true, value: { student: "tern", edition: "1.0.0" } });
    expect(codesOf(await planFor(store, "tern", { course: COURSE, today: "soon", minutes: 10, seed: 1 }))).toEqual([
      "PLAN_DATE_NOT_READ",
    ]);
    const report = await reportOf(store, { at: timeOf(90), courseOf: async () => COURSE });
    expect(report.ok && report.value.report.students.map(({ student }) => student)).toEqual(["knot", "tern"]);
    const one = await reportOf(store, { at: timeOf(90), students: ["tern", "term"], courseOf: async () => COURSE });
    expect(one).toMatchObject({ ok: true, value: { problems: [{ code: "STUDENT_UNKNOWN" }], climbs: [] } });
    const alone = await reportOf(store, { at: timeOf(90), students: ["tern"], courseOf: async () => COURSE });
    expect(alone).toMatchObject({ ok: true, value: { climbs: [{ course: { edition: "1.0.0" } }] } });
    expect(codesOf(await reportOf(store, { at: timeOf(90), curriculum: "quai" }))).toEqual(["NOBODY_IN_COURSE"]);
    expect(await reportOf(memoryStore(), { at: timeOf(90) })).toMatchObject({
      ok: true,
      value: { report: { students: [] } },
    });
  });
});

describe("keptCourse() and keptCourses()", () => {
  test("read an edition as the store keeps it, and say what is missing", async () => {
    const store = await enrolled("tern");
    expect(codesOf(await keptCourse(store, { curriculum: "quay", edition: "1.0.0" }))).toEqual(["COURSE_NOT_KEPT"]);
    const courses = keptCourses(store);
    expect(await courses.find("quay", "1.0.0")).toBeUndefined();
    expect(courses.problemsOf("quay", "1.0.0").map(({ code }) => code)).toEqual(["COURSE_NOT_KEPT"]);
  });
});

describe("checkCourse()", () => {
  test("tells what a new edition does to rungs and to students, and writes nothing", async () => {
    const store = await enrolled("tern");
    const next = quay({ edition: "1.0.1", tempi: "{ from: 94, to: 102, by: 4 }" });
    const before = await all(store.events(KEY));
    const check = await checkCourse(next, { store, at: timeOf(60), courseOf: async () => COURSE });
    expect(check.comparisons).toMatchObject([{ from: "1.0.0", to: "1.0.1" }]);
    expect(check.effects).toMatchObject([{ student: "tern", isAffected: true }]);
    expect(check.problems.length).toBeGreaterThan(0);
    expect(await all(store.events(KEY))).toEqual(before);
    const alone = await checkCourse(next, { against: COURSE, at: timeOf(60) });
    expect(alone.effects).toEqual([]);
    expect(alone.comparisons).toEqual(check.comparisons);
  });
});
