import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { rungIndex, settingsText } from "../../lib/drill/index.js";
import { enrol, type NamedTake, openStudent, type Submitted, submit, takeOver } from "../../lib/practice/index.js";
import { fold, gateMet, standingText, takeIn } from "../../lib/progress/index.js";
import type { JournalEvent } from "../../lib/schema/index.js";
import { memoryStore, type Store } from "../../lib/store/index.js";
import { timeOf } from "../progress/course.js";
import { sample } from "../samples.js";
import { all } from "../store/material.js";
import { type Playing, playTo, quay } from "./quay.js";

const KEY = { student: "tern", curriculum: "quay" };

/** Editions a teacher might publish meanwhile: the same rungs and more, other rungs, another name. */
const EDITIONS: readonly Curriculum[] = [
  quay(),
  quay({ edition: "1.1.0", tempi: "{ from: 86, to: 106, by: 4 }" }),
  quay({ edition: "2.0.0", first: "calm", formerly: "steady", tempi: "{ from: 90, to: 98, by: 8 }" }),
];

/** What a student with two devices does; `pick` chooses among the takes so far. */
type Step =
  | { readonly what: "play"; readonly how: Playing["how"] }
  | { readonly what: "play and wait"; readonly how: Playing["how"] }
  | { readonly what: "send what waits" }
  | { readonly what: "next edition" }
  | { readonly what: "send again"; readonly pick: number };

const how = fc.oneof(
  { arbitrary: fc.constant("in time" as const), weight: 6 },
  { arbitrary: fc.constant("late" as const), weight: 2 },
  { arbitrary: fc.constant("nothing" as const), weight: 1 },
);
const step: fc.Arbitrary<Step> = fc.oneof(
  { arbitrary: fc.record({ what: fc.constant("play" as const), how }), weight: 5 },
  { arbitrary: fc.record({ what: fc.constant("play and wait" as const), how }), weight: 5 },
  { arbitrary: fc.record({ what: fc.constant("send what waits" as const) }), weight: 3 },
  { arbitrary: fc.record({ what: fc.constant("send again" as const), pick: fc.nat(99) }), weight: 3 },
  { arbitrary: fc.record({ what: fc.constant("next edition" as const) }), weight: 1 },
);

interface Sent {
  readonly take: NamedTake;
  readonly first: Submitted;
  /** Edition in use when it was sent first. */
  readonly edition: string;
}

/** A store that counts how often a writer found another one before it. */
function racing(store: Store): Store & { overtaken: number } {
  const raced = {
    ...store,
    overtaken: 0,
    append: async (...given: Parameters<Store["append"]>) => {
      const appended = await store.append(...given);
      if (appended.outcome === "overtaken") raced.overtaken++;
      return appended;
    },
  };
  return raced;
}

/** Plays the steps; everything that waits is sent at the same moment, as from several devices. */
async function term(steps: readonly Step[], store: Store): Promise<readonly Sent[]> {
  const sent: Sent[] = [];
  let waiting: NamedTake[] = [];
  let [course, before] = [EDITIONS[0]!, EDITIONS[0]!];
  let count = 0;
  const deliver = async (take: NamedTake): Promise<void> => {
    // A store of its own for each device: takes that come to one store wait for each other.
    const answer = await submit({ ...store }, KEY.student, take, { course, before, at: timeOf(60 * count) });
    const known = sent.find((each) => each.take.id === take.id);
    if (!answer.ok) {
      // Refused only when it is new and neither edition has its rung: nobody knows what was to be played.
      expect(answer.problems.map(({ code }) => code)).toEqual(["RUNG_NOT_FOUND"]);
      expect([known, [course, before].some((each) => hasRung(each, take))]).toEqual([undefined, false]);
      return;
    }
    expect(answer.value.known).toBe(known !== undefined);
    if (known === undefined) sent.push({ take, first: answer.value, edition: course.edition });
    else if (known.edition === course.edition) againTheSame(answer.value, known.first);
    else expect(answer.value.decision).toMatchObject({ what: known.first.decision.what, to: known.first.decision.to });
  };
  await enrol(store, KEY.student, { course, at: timeOf(0) });
  for (const each of steps) {
    count++;
    if (each.what === "next edition") {
      [before, course] = [course, EDITIONS[(EDITIONS.indexOf(course) + 1) % EDITIONS.length]!];
      await takeOver(store, KEY.student, { course, before, at: timeOf(60 * count) });
    } else if (each.what === "send again") {
      const again = sent[each.pick % Math.max(1, sent.length)];
      const size = (await store.open(KEY))!.events;
      if (again !== undefined) await deliver(again.take);
      expect((await store.open(KEY))!.events).toBe(size);
    } else if (each.what === "send what waits") {
      const takes = waiting;
      waiting = [];
      await Promise.all(takes.map(deliver));
    } else if (each.what === "play" || each.what === "play and wait") {
      const student = await openStudent(store, KEY.student, { course });
      const open = student.ok ? student.value.open[0] : undefined;
      if (open === undefined) continue;
      const rung = settingsText(open.rung.settings);
      const take = playTo(course, { id: `t${count}`, drill: open.drill.name, rung, how: each.how });
      if (each.what === "play") await deliver(take);
      else waiting.push(take);
    }
  }
  return sent;
}

/** Whether an edition has the rung of a take, whatever it calls the drill. */
function hasRung({ drills }: Curriculum, take: NamedTake): boolean {
  const drill = drills.find(({ name }) => (name === "later") === (take.drill === "later"))!;
  return rungIndex(drill, take.rung!) !== undefined;
}

function againTheSame(again: Submitted, first: Submitted): void {
  expect(again.finding).toEqual(first.finding);
  expect(again.decision).toEqual(first.decision);
  const own = first.events.findIndex(({ kind }) => kind === "take assessed");
  expect(again.events).toEqual(first.events.slice(own));
}

/** What has to hold of a journal however its takes came in. */
async function holds(store: Store, sent: readonly Sent[]): Promise<void> {
  const events = await all(store.events(KEY));
  const standing = (await store.open(KEY))!.standing!;
  expect(standingText(standing)).toBe(standingText(fold(events).standing!));
  const counted = new Map<string, JournalEvent & { kind: "take assessed" }>();
  for (const event of events) {
    if (event.kind !== "take assessed") continue;
    expect(counted.has(event.take)).toBe(false);
    counted.set(event.take, event);
  }
  expect([...counted.keys()].sort()).toEqual(sent.map(({ take }) => take.id!).sort());
  // A take is never judged by another rung than the one it was played to.
  for (const { take, first } of sent) {
    expect(counted.get(take.id!)).toMatchObject({ rung: take.rung!, verdict: first.finding!.verdict });
    expect(takeIn(standing, take.id!)?.rung).toBe(take.rung);
    if (first.finding!.verdict === "unclear") expect(first.decision.what).toBe("hold");
  }
  for (const event of events) {
    if (event.kind !== "advanced" && event.kind !== "drill completed") continue;
    for (const take of event.evidence) expect(counted.get(take)).toMatchObject({ rung: event.from, verdict: "within" });
    if (event.credit === undefined) expect(gateMet(event.gate, event.evidence.length, event.against.length)).toBe(true);
  }
}

describe("submit()", () => {
  test("counts each take once, by its own rung, and tells its decision again, through retries, races and editions", async () => {
    let overtaken = 0;
    let again = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 30, maxLength: 30 }), async (steps) => {
        const store = racing(memoryStore());
        const sent = await term(steps, store);
        await holds(store, sent);
        overtaken += store.overtaken;
        again += steps.filter(({ what }) => what === "send again").length;
      }),
      // A take is a whole assessment, some tens of milliseconds: our choice.
      { numRuns: sample({ suite: 8, proof: 300 }), endOnFailure: true },
    );
    expect(overtaken).toBeGreaterThan(0);
    expect(again).toBeGreaterThan(0);
  });
});
