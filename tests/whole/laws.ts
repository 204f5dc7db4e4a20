import { expect } from "vitest";
import { random } from "../../lib/base/index.js";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { findRung, settingsText } from "../../lib/drill/index.js";
import { type Belief, historyOf, type Plan, planSession, posteriorOf } from "../../lib/plan/index.js";
import { canonicalJson, compareEvents, fold, standingText } from "../../lib/progress/index.js";
import type { JournalEvent, Standing } from "../../lib/schema/index.js";
import { exportJournals, importJournals, memoryStore, type Store } from "../../lib/store/index.js";
import { all } from "../store/material.js";
import { must } from "../time/shorthand.js";
import { drillIn, type Editions, ladderOf, seen } from "./board.js";
import { judge, type Terms } from "./referee.js";
import { KEY, type Step } from "./term.js";

/** A number of the order in which things arrive that have been shuffled. */
export function shuffled<T>(list: readonly T[], seed: string): readonly T[] {
  const chance = random(seed);
  return list
    .map((each) => ({ each, key: chance.uniform() }))
    .sort((a, b) => a.key - b.key)
    .map(({ each }) => each);
}

/** What has to hold of a store, whatever happened to it; gives its events. */
export async function holdsIn(store: Store, terms: Terms): Promise<readonly JournalEvent[]> {
  const events = await all(store.events(KEY));
  const { standing, events: count } = (await store.open(KEY))!;
  expect(events).toEqual([...events].sort(compareEvents));
  expect(count).toBe(events.length);
  // Invariants 1, 3, 4, 5: the referee goes through every decision, and comes to the same standing.
  expect(seen(standing!)).toEqual(seen(judge(events, terms)));
  // Invariant 2: in any order and twice over, the same bytes.
  const text = standingText(standing!);
  expect(standingText(fold(shuffled([...events, ...events], "twice")).standing!)).toBe(text);
  if (terms.alone) expect(fold(events).problems).toEqual([]);
  expect(await all(store.verify(KEY))).toEqual([]);
  return events;
}

/** Invariant 2 again, through another store: what is exported line by line and read in another order comes to the same bytes. */
export async function travelsFrom(store: Store): Promise<void> {
  const lines = (await all(exportJournals(store))).map((value, i) => ({ value: JSON.parse(value), line: i + 1 }));
  const there = memoryStore();
  const read = await importJournals(there, shuffled([...lines, ...lines], "elsewhere"));
  expect(read.problems).toEqual([]);
  expect(read.added).toBe(lines.length);
  const [before, after] = await Promise.all([store, there].map((each) => each.open(KEY)));
  expect(standingText(after!.standing!)).toBe(standingText(before!.standing!));
}

/** Invariant 3, at one decision: an unclear take is written down and changes nothing else. */
export function unclearChangesNothing(before: Standing, events: readonly JournalEvent[], after: Standing): void {
  const [take, ...others] = events;
  if (take?.kind !== "take assessed" || take.verdict !== "unclear") return;
  expect(others, "an unclear take decides nothing").toEqual([]);
  const places = ({ drills }: Standing): unknown =>
    drills
      .filter(({ state }) => state !== "closed")
      .map(({ drill, state, rung, completed }) => ({ drill, state, rung, completed }));
  expect(places(after)).toEqual(places(before));
}

/** Takes a belief rests on here: learning from all of them is what plans take their time for, and no law depends on it. */
const LATEST = 8;

function beliefOf(course: Curriculum, events: readonly JournalEvent[]): Belief {
  return posteriorOf(course, { takes: historyOf(events).takes.slice(-LATEST) });
}

/** What has to hold of a plan made from a store: in time, nothing whose needs are unmet, nothing above the student, the same again. */
export async function plansWell(
  store: Store,
  { pick, level, lot }: Pick<Step, "pick" | "level" | "lot">,
  course: Curriculum,
): Promise<Plan> {
  const events = await all(store.events(KEY));
  const standing = (await store.open(KEY))!.standing!;
  const minutes = 1 + (pick % 90);
  const request = {
    curriculum: course,
    standing,
    events,
    belief: beliefOf(course, events),
    today: `2026-04-${String(1 + (level % 28)).padStart(2, "0")}`,
    minutes,
    seed: lot,
    order: level % 2 === 0 ? ("one by one" as const) : ("taking turns" as const),
  };
  const plan = must(planSession(request));
  let used = 0;
  for (const line of plan.lines) {
    expect(line.from, "lines follow each other").toBe(used);
    used += line.seconds;
    if (line.kind === "rest") continue;
    const drill = drillIn(course, line.drill)!;
    const held = standing.drills.find((each) => each.drill === line.drill)!;
    // By its name in the wish, or still on the rung of the wish when the drill has another name since.
    const wished =
      held.by === "set by teacher" ||
      events.some((event) => event.kind === "set by teacher" && event.drill === line.drill);
    const unmet = drill.needs.filter(
      (need) => standing.drills.find((each) => each.drill === need)?.completed === undefined,
    );
    expect(wished || unmet.length === 0, `${line.drill} needs ${unmet.join()}`).toBe(true);
    expect(["open", "complete"]).toContain(held.state);
    if (line.number === null) expect(line.kind, "below the first rung").toBe("preparation");
    if (line.number === null) continue;
    const rung = settingsText(must(findRung(drill, line.rung)).settings);
    const [planned, present] = [rung, held.rung!].map((each) => ladderOf(drill).indexOf(each));
    expect(planned).toBeGreaterThanOrEqual(0);
    expect(planned, "not above the student's own rung").toBeLessThanOrEqual(present!);
  }
  expect(used).toBe(plan.seconds);
  expect(used, `${minutes} minutes`).toBeLessThanOrEqual(60 * minutes);
  const late = shuffled(events, "plan");
  const copy = JSON.parse(canonicalJson(standing)) as Standing;
  const again = planSession({ ...request, standing: copy, events: late, belief: beliefOf(course, late) });
  expect(canonicalJson(must(again))).toBe(canonicalJson(plan));
  return plan;
}

/** Where a student is and by which takes; not under which ids that was written down, as a wish that is asked again is another event. */
export function placesOf({ edition, drills }: Standing): string {
  const places = drills.map(({ completed, rungs: held, ...rest }) => ({
    ...rest,
    completed: completed?.rung,
    rungs: held.map(({ credit, ...rung }) => ({ ...rung, credit: credit?.evidence })),
  }));
  return canonicalJson({ edition, drills: places });
}

export function termsOf(editions: Editions, tablet: boolean): Terms {
  return { editions, alone: !tablet };
}
