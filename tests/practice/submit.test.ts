import { describe, expect, test } from "vitest";
import type { Failure } from "../../lib/base/index.js";
import { settingsText } from "../../lib/drill/index.js";
import {
  enrol,
  type NamedTake,
  openStudent,
  requireNames,
  type Submitted,
  submit,
  takeOver,
} from "../../lib/practice/index.js";
import { fold } from "../../lib/progress/index.js";
import type { Take } from "../../lib/schema/index.js";
import { isStoreProblem, memoryStore, type Store } from "../../lib/store/index.js";
import { timeOf } from "../progress/course.js";
import { materials } from "../reference/players/materials.js";
import { all } from "../store/material.js";
import { allWorded } from "../words/worded.js";
import { type Playing, playTo, quay } from "./quay.js";

const COURSE = quay();
const KEY = { student: "tern", curriculum: "quay" };
const FIRST = "dropout=1 bar,parts=kit,tempo=90";
const SECOND = "dropout=1 bar,parts=kit,tempo=94";

async function enrolled(): Promise<Store> {
  const store = memoryStore();
  await enrol(store, "tern", { course: COURSE, at: timeOf(0) });
  return store;
}

function played(id: string, how: Playing["how"] = "in time", rung = FIRST): NamedTake {
  return playTo(COURSE, { id, drill: "steady", rung, how });
}

async function sent(store: Store, take: NamedTake, at = timeOf(60)): Promise<Submitted> {
  const answer = await submit(store, "tern", take, { course: COURSE, at });
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  return answer.value;
}

async function codes(store: Store, take: Take, student = "tern"): Promise<readonly string[]> {
  const before = await all(store.events(KEY));
  // A program in JavaScript may hand in any take.
  const answer = await submit(store, student, take as NamedTake, { course: COURSE, at: timeOf(60) });
  expect(await all(store.events(KEY))).toEqual(before);
  if (answer.ok) return [];
  return allWorded(answer.problems).map(({ code, where }) => `${code} ${where.pointer ?? ""}`.trim());
}

describe("submit()", () => {
  test("takes only a take that says its id, drill and rung, as the compiler sees, and as `requireNames` finds out", async () => {
    const store = await enrolled();
    const use = { course: COURSE, at: timeOf(60) };
    const { id: _, ...unnamed } = played("a");
    // @ts-expect-error: a take without id
    expect(await submit(store, "tern", unnamed, use)).toMatchObject({ ok: false });
    const taken: Take = played("a");
    // @ts-expect-error: a take that may lack all of them
    expect(await submit(store, "tern", taken, use)).toMatchObject({ ok: true });
    const named = requireNames(taken);
    expect(named.ok && (await submit(store, "tern", named.value, use))).toMatchObject({ ok: true });
    expect(allWorded((requireNames({ onsets: [] }) as Failure).problems).map(({ code }) => code)).toEqual([
      "TAKE_NOT_NAMED",
      "TAKE_RUNG_NOT_SAID",
      "TAKE_RUNG_NOT_SAID",
    ]);
  });

  test("an advance whose answer was lost is told again, with its events, after any later take", async () => {
    const store = await enrolled();
    await sent(store, played("a"));
    const advance = await sent(store, played("b"), timeOf(90));
    expect(advance).toMatchObject({ known: false, decision: { what: "advance", to: SECOND } });
    await sent(store, played("c", "late", SECOND));
    const size = (await store.open(KEY))!.events;
    const again = await sent(store, played("b"), timeOf(900));
    expect(again).toMatchObject({ known: true, finding: advance.finding, decision: advance.decision });
    expect(again.events).toEqual(advance.events);
    expect(again.standing).toEqual((await store.open(KEY))!.standing);
    expect((await store.open(KEY))!.events).toBe(size);
  });

  test("another take under the id of one that was counted is refused, and changes nothing", async () => {
    const store = await enrolled();
    await sent(store, played("a"));
    const size = (await store.open(KEY))!.events;
    expect(await codes(store, played("a", "late"))).toEqual(["TAKE_CHANGED /id"]);
    expect((await store.open(KEY))!.events).toBe(size);
  });

  test("a hold, going back and a completion with what it opened are told again too", async () => {
    const store = await enrolled();
    const firsts: (readonly [NamedTake, Submitted])[] = [];
    const play = async (take: NamedTake): Promise<void> => {
      firsts.push([take, await sent(store, take)]);
    };
    await play(played("a"));
    await play(played("b"));
    await play(played("c", "late", SECOND));
    await play(played("d", "late", SECOND));
    await play(played("e", "nothing"));
    for (const id of ["f", "g", "h", "i", "j", "k", "l", "m"]) {
      const open = await openStudent(store, "tern", { course: COURSE });
      if (open.ok) await play(played(id, "in time", settingsText(open.value.open[0]!.rung.settings)));
    }
    expect(firsts.map(([, { decision }]) => decision.what)).toContain("go back");
    expect(firsts.map(([, { decision }]) => decision)).toContainEqual(
      expect.objectContaining({ what: "complete", opened: ["later"] }),
    );
    for (const [take, first] of firsts) {
      const again = await sent(store, take, timeOf(9000));
      expect(again).toEqual({ ...first, known: true, standing: again.standing });
    }
  });

  test("a take that waited during an advance is judged by the rung it says, and changes nothing", async () => {
    const store = await enrolled();
    const waiting = played("w", "late");
    await sent(store, played("a"));
    await sent(store, played("b"));
    const late = await sent(store, waiting);
    expect(late.finding).toMatchObject({ rung: FIRST, verdict: "beyond" });
    expect(late.decision).toMatchObject({ what: "hold", from: SECOND, to: SECOND });
  });

  test("a take must say its id, its drill and the settings of its rung; everything missing is said at once", async () => {
    const store = await enrolled();
    expect(await codes(store, { onsets: [] })).toEqual([
      "TAKE_NOT_NAMED /id",
      "TAKE_RUNG_NOT_SAID /drill",
      "TAKE_RUNG_NOT_SAID /rung",
    ]);
    expect(await codes(store, { ...played("a"), rung: "1" })).toEqual(["TAKE_RUNG_NOT_SAID /rung"]);
    expect(await codes(store, { ...played("a"), drill: "stedy" })).toEqual(["DRILL_UNKNOWN /drill"]);
    expect(await codes(store, { ...played("a"), rung: "tempo=91", mix: "pley" })).toEqual([
      "RUNG_NOT_FOUND /rung",
      "MIX_UNKNOWN /mix",
    ]);
    expect(await codes(store, played("x".repeat(201)))).toEqual(["FINDING_INCOMPLETE /take"]);
    // PostgreSQL keeps no U+0000: a client would send such a take for ever.
    expect(await codes(store, played("a\0b"))).toEqual(["TAKE_NOT_NAMED /id"]);
    // Counted in characters, of which some are two units of text.
    const named = await submit(store, "tern", played("𝄞\u0007"), { course: COURSE, at: timeOf(60) });
    expect(named).toMatchObject({ problems: [{ message: expect.stringContaining("character 2 is U+0007") }] });
    expect(await codes(store, played("a"), "term")).toEqual(["STUDENT_UNKNOWN"]);
  });

  test("an id that was used for a take of another rung is refused", async () => {
    const store = await enrolled();
    await sent(store, played("a"));
    expect(await codes(store, played("a", "in time", SECOND))).toEqual(["TAKE_ID_REUSED /id"]);
  });

  test("two devices that meet the gate at the same moment advance the student once", async () => {
    const store = await enrolled();
    await sent(store, played("a"));
    const answers = await Promise.all([sent(store, played("b")), sent(store, played("c"))]);
    expect(answers.map(({ decision }) => decision.what).sort()).toEqual(["advance", "hold"]);
    const events = await all(store.events(KEY));
    expect(events.filter(({ kind }) => kind === "advanced")).toHaveLength(1);
    expect(fold(events).problems).toEqual([]);
  });

  test("a take that two devices send at the same moment is new to one of them and known to the other, with the same answer", async () => {
    const store = await enrolled();
    const [first, second] = await Promise.all([sent(store, played("a")), sent(store, played("a"))]);
    expect([first.known, second.known].sort()).toEqual([false, true]);
    expect(second).toEqual({ ...first, known: second.known });
    expect((await all(store.events(KEY))).filter(({ kind }) => kind === "take assessed")).toHaveLength(1);
  });

  test("a gate met by journals that were merged is decided on when a take of it is sent again", async () => {
    const [phone, school] = [await enrolled(), await enrolled()];
    await sent(phone, played("a"));
    await sent(school, played("b"));
    await school.merge(KEY, await all(phone.events(KEY)));
    const again = await sent(school, played("b"), timeOf(120));
    expect(again).toMatchObject({ known: true, decision: { what: "advance", to: SECOND } });
    expect(await sent(school, played("b"), timeOf(180))).toMatchObject({ known: true, decision: { what: "advance" } });
  });

  test("takes of an edition before are counted under their rung, also when the drill has another name now", async () => {
    const store = await enrolled();
    const next = quay({ edition: "2.0.0", first: "calm", formerly: "steady", tempi: "{ from: 94, to: 102, by: 4 }" });
    const first = await sent(store, played("a"));
    await takeOver(store, "tern", { course: next, before: COURSE, at: timeOf(70) });
    const late = await submit(store, "tern", played("w"), { course: next, before: COURSE, at: timeOf(80) });
    expect(late).toMatchObject({
      ok: true,
      value: { known: false, finding: { rung: FIRST, drill: "steady" }, decision: { what: "hold", drill: "calm" } },
    });
    const again = await submit(store, "tern", played("a"), { course: next, before: COURSE, at: timeOf(90) });
    expect(again).toMatchObject({
      ok: true,
      value: { known: true, finding: { verdict: first.finding!.verdict }, decision: { what: "hold", to: FIRST } },
    });
    // Without the edition before, nobody knows what was to be played; the take is refused, and can be sent again.
    const alone = await submit(store, "tern", played("z"), { course: next, at: timeOf(90) });
    expect(alone).toMatchObject({ ok: false, problems: [{ code: "RUNG_NOT_FOUND", where: { pointer: "/rung" } }] });
  });

  test("a take that says a name its drill had for one edition only is counted and known in any later one", async () => {
    const store = await enrolled();
    const renamed = quay({ edition: "2.0.0", first: "calm", formerly: "steady" });
    const back = quay({ edition: "3.0.0" });
    const later = quay({ edition: "3.1.0" });
    const take = playTo(renamed, { id: "waits", drill: "calm", rung: FIRST, how: "in time" });
    await takeOver(store, "tern", { course: renamed, before: COURSE, at: timeOf(60) });
    await takeOver(store, "tern", { course: back, before: renamed, at: timeOf(70) });
    const first = await submit(store, "tern", take, { course: back, before: renamed, at: timeOf(80) });
    expect(first).toMatchObject({ ok: true, value: { known: false, decision: { drill: "steady", what: "hold" } } });
    await takeOver(store, "tern", { course: later, before: back, at: timeOf(90) });
    for (const before of [{}, { before: back }]) {
      const again = await submit(store, "tern", take, { course: later, ...before, at: timeOf(100) });
      expect(again).toMatchObject({
        ok: true,
        value: {
          known: true,
          finding: { verdict: "within", rung: FIRST },
          decision: { drill: "steady", what: "hold" },
        },
      });
    }
    const longer = playTo(renamed, { id: "waits longer", drill: "calm", rung: FIRST, how: "in time" });
    expect(await submit(store, "tern", longer, { course: later, before: back, at: timeOf(105) })).toMatchObject({
      ok: true,
      value: { known: false, finding: { rung: FIRST }, decision: { drill: "steady", what: "advance" } },
    });
    const other = await submit(store, "tern", { ...take, drill: "later" }, { course: later, at: timeOf(110) });
    expect(other).toMatchObject({ ok: false, problems: [{ code: "TAKE_ID_REUSED" }] });
  });

  test("a take sent again in a later edition decides nothing by its rules", async () => {
    const store = await enrolled();
    await sent(store, played("a", "late"));
    const first = await sent(store, played("b", "late"));
    expect(first.decision).toMatchObject({ what: "hold", from: FIRST, to: FIRST });
    // Two takes beyond tolerance would now lead a rung back.
    const easier = quay({ edition: "1.1.0", tempi: "{ from: 86, to: 106, by: 4 }" });
    await takeOver(store, "tern", { course: easier, before: COURSE, at: timeOf(70) });
    const events = await all(store.events(KEY));
    const again = await submit(store, "tern", played("b", "late"), { course: easier, before: COURSE, at: timeOf(80) });
    expect(again).toMatchObject({ ok: true, value: { known: true, decision: { what: "hold", to: FIRST } } });
    expect(await all(store.events(KEY))).toEqual(events);
    const next = playTo(easier, { id: "c", drill: "steady", rung: FIRST, how: "late" });
    expect(await submit(store, "tern", next, { course: easier, at: timeOf(90) })).toMatchObject({
      ok: true,
      value: { known: false, decision: { what: "go back", from: FIRST } },
    });
  });

  test("a student who is still in another edition goes over with the take, and the answer says so", async () => {
    const store = await enrolled();
    const next = quay({ edition: "1.1.0" });
    const answer = await submit(store, "tern", played("a"), { course: next, before: COURSE, at: timeOf(60) });
    expect(answer).toMatchObject({ ok: true, value: { moved: { from: "1.0.0", to: "1.1.0" } } });
  });

  test.each(["open", "append"] as const)(
    "nothing is written for a student who is erased before its %s",
    async (step) => {
      const store = await enrolled();
      const erasing: Store = {
        ...store,
        [step]: async (...given: never[]) => {
          await store.erase("tern");
          return (store[step] as (...all: never[]) => unknown)(...given);
        },
      };
      const answer = await submit(erasing, "tern", played("a"), { course: COURSE, at: timeOf(60) });
      expect(answer).toMatchObject({ ok: false, problems: [{ code: "STUDENT_UNKNOWN" }] });
      expect(await store.open(KEY)).toBeUndefined();
    },
  );

  test("a fault of the store rejects with its problem, and the take can be sent again", async () => {
    const store = await enrolled();
    const full = {
      code: "STORE_FULL",
      severity: "error" as const,
      message: "there is no room left",
      where: {},
    };
    const failing: Store = {
      ...store,
      append: () => Promise.reject(Object.assign(new Error("full"), { problem: full })),
    };
    const fault = await submit(failing, "tern", played("a"), { course: COURSE, at: timeOf(60) }).catch(
      (error: unknown) => error,
    );
    expect(isStoreProblem(fault) && fault.problem.code).toBe("STORE_FULL");
    expect(await sent(store, played("a"))).toMatchObject({ known: false });
  });

  test("a time that is none is a programmer's mistake", async () => {
    const store = await enrolled();
    await expect(submit(store, "tern", played("a"), { course: COURSE, at: "now" })).rejects.toThrow(RangeError);
  });
});

test("submit() tells a take of another variant by its settings, and counts nothing of it", async () => {
  const { curriculum: course, score, otherVariant } = materials().find(({ name }) => name === "even eighths, 1 bar")!;
  const store = memoryStore();
  await enrol(store, "tern", { course, at: timeOf(0) });
  const onsets = otherVariant!.expected.map(({ at, pitch }) => ({ at, ...(pitch === undefined ? {} : { pitch }) }));
  const take: NamedTake = { id: "plain for busy", drill: score.drill, rung: score.rung, zero: "bar-1", onsets };
  const answer = await submit(store, "tern", take, { course, at: timeOf(60) });
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  expect(answer.value.finding).toMatchObject({
    verdict: "unclear",
    sentence: "What was played is not this riff (riff busy) but another one (riff plain).",
  });
});
