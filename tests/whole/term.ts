import fc from "fast-check";
import { random } from "../../lib/base/index.js";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { beginJournal, changeEdition, decide, drillStanding, placeByTeacher } from "../../lib/progress/index.js";
import type { Finding, JournalEvent, Standing, Verdict } from "../../lib/schema/index.js";
import { record, type Store } from "../../lib/store/index.js";
import { findingOf, timeOf } from "../progress/course.js";
import { all } from "../store/material.js";
import { type Editions, ladderOf } from "./board.js";
import { type Change, type CoursePlan, change, changed, courseOf, coursePlan } from "./curricula.js";
import { Crash, type Door } from "./faults.js";

/** A student as chance has it: how likely a take is clean on the first rung, by how much less on each further one, and how often it is unclear. */
export interface Student {
  readonly clean: number;
  readonly less: number;
  readonly unclear: number;
}

/** Something that happens; `pick` and `level` choose among what there is at that moment, `lot` settles the day's luck. */
export interface Step {
  readonly what:
    | "take"
    | "take elsewhere"
    | "take again"
    | "two at once"
    | "teacher"
    | "edition"
    | "sync"
    | "sync some"
    | "plan";
  readonly device: 0 | 1;
  readonly offline: boolean;
  readonly lot: number;
  readonly pick: number;
  readonly level: number;
  /** Where the program that writes dies; it is started again, and the same is asked again. */
  readonly dies: readonly ("before" | "after")[];
  /** The clock of the device was set back. */
  readonly clockBack: boolean;
}

/** A term at a school with two devices on one store and, maybe, a tablet that is seldom on line. */
export interface Term {
  readonly editions: readonly CoursePlan[];
  readonly student: Student;
  readonly steps: readonly Step[];
  readonly tablet: boolean;
}

const weighted = <T>(...of: readonly (readonly [weight: number, value: T])[]): fc.Arbitrary<T> =>
  fc.oneof(...of.map(([weight, value]) => ({ weight, arbitrary: fc.constant(value) })));

const step: fc.Arbitrary<Step> = fc.record({
  what: weighted<Step["what"]>(
    [40, "take"],
    [3, "take elsewhere"],
    [4, "take again"],
    [5, "two at once"],
    [2, "teacher"],
    [3, "edition"],
    [2, "sync"],
    [2, "sync some"],
    [2, "plan"],
  ),
  device: fc.constantFrom(0 as const, 1 as const),
  offline: weighted([3, false], [1, true]),
  lot: fc.nat(),
  pick: fc.nat(1000),
  level: fc.nat(1000),
  dies: weighted<Step["dies"]>(
    [8, []],
    [2, ["before"]],
    [2, ["after"]],
    [1, ["before", "after"]],
    [1, ["after", "after"]],
  ),
  clockBack: weighted([9, false], [1, true]),
});

const student: fc.Arbitrary<Student> = fc.record({
  clean: fc.integer({ min: 50, max: 100 }).map((percent) => percent / 100),
  less: fc.nat(10).map((percent) => percent / 100),
  unclear: fc.nat(30).map((percent) => percent / 100),
});

export const termOf = (steps: number): fc.Arbitrary<Term> =>
  fc.record({
    editions: fc
      .tuple(coursePlan, fc.array(change, { maxLength: 4 }))
      .map(([first, changes]) => editionsFrom(first, changes)),
    student,
    steps: fc.array(step, { minLength: steps, maxLength: steps, size: "max" }),
    tablet: fc.boolean(),
  });

function editionsFrom(first: CoursePlan, changes: readonly Change[]): readonly CoursePlan[] {
  const editions = [first];
  for (const each of changes) editions.push(changed(editions.at(-1)!, each));
  return editions;
}

export function editionsOf({ editions }: Term): Editions {
  return new Map(editions.map(courseOf).map((course) => [course.edition, course]));
}

export const KEY = { student: "tern", curriculum: "quayside-random" } as const;

/** What happens beside the steps: called after each, and for each decision taken. */
export interface Watch {
  /** A decision that was kept, with what was known before. */
  decided?(before: Standing, events: readonly JournalEvent[], after: Standing): void;
  /** A step at which a plan is asked for. */
  plan?(store: Store, step: Step, course: Curriculum): Promise<void>;
  /** A step was answered. */
  done?(step: number): void;
  /** The journal of a store around a death: before it, and after the program was started again. */
  died?(before: readonly JournalEvent[], after: readonly JournalEvent[]): void;
}

/** Plays a term through the doors of a school and of a tablet; every step is asked again until it was answered. */
export async function playTerm(
  term: Term,
  { school, tablet, watch = {}, from = 0 }: { school: readonly Door[]; tablet?: Door; watch?: Watch; from?: number },
): Promise<void> {
  const editions = [...editionsOf(term).values()];
  if (from === 0)
    for (const door of tablet === undefined ? school : [...school, tablet])
      await record(door.store, KEY, (journal) =>
        journal?.standing === undefined
          ? beginJournal(editions[0]!, KEY.student, timeOf(0))
          : { events: [], standing: journal.standing },
      );
  for (const [i, each] of term.steps.entries()) {
    if (i < from) continue;
    const door = each.offline && tablet !== undefined ? tablet : school[each.device % school.length]!;
    const dies = each.what === "plan" ? [] : each.dies;
    await survive(door, { dies, watch }, await workOf(each, i, { door, school, tablet, editions, term, watch }));
    watch.done?.(i);
  }
}

interface Scene {
  readonly door: Door;
  readonly school: readonly Door[];
  readonly tablet: Door | undefined;
  readonly editions: readonly Curriculum[];
  readonly term: Term;
  readonly watch: Watch;
}

/** Does a piece of work, dying on the way as told, until it is done. */
async function survive(
  door: Door,
  { dies, watch }: { readonly dies: Step["dies"]; readonly watch: Watch },
  work: () => Promise<void>,
): Promise<void> {
  for (const moment of dies) {
    const before = await all(door.store.events(KEY));
    door.dieAt(moment);
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Crash)) throw error;
      await door.restart();
      watch.died?.(before, await all(door.store.events(KEY)));
    }
    door.calm();
  }
  await work();
}

/** The work of a step, which may be asked for again: what was played is settled before. */
async function workOf(each: Step, i: number, scene: Scene): Promise<() => Promise<void>> {
  const { door, school, tablet, editions, watch } = scene;
  const at = timeOf(each.clockBack ? 5 : 60 * (i + 1));
  const now = (await door.store.open(KEY))!.standing!;
  const current = editions.find(({ edition }) => edition === now.edition)!;
  if (each.what === "sync" || each.what === "sync some")
    return async () => (tablet === undefined ? undefined : await sync(school[0]!, tablet, each));
  if (each.what === "plan") return async () => watch.plan?.(door.store, each, current);
  if (each.what === "edition") {
    const next = editions[each.pick % editions.length]!;
    return () =>
      kept(door, watch, (standing) =>
        changeEdition(next, standing, { at, before: editions.find(({ edition }) => edition === standing.edition)! }),
      );
  }
  const drill = current.drills[each.pick % current.drills.length]!;
  const ladder = ladderOf(drill);
  const some = ladder[each.level % ladder.length]!;
  if (each.what === "teacher")
    return () =>
      kept(door, watch, (standing) => {
        const placed = placeByTeacher(current, standing, { drill: drill.name, rung: some, at, teacher: "gull" });
        return placed.ok ? placed.value : { events: [], standing };
      });
  const elsewhere = each.what === "take elsewhere";
  const rung = (elsewhere ? undefined : drillStanding(now, drill.name)?.rung) ?? some;
  const name = each.what === "take again" ? `t${each.level % (i + 1)}` : `t${i}`;
  const finding = played(scene.term.student, {
    name,
    drill: drill.name,
    rung,
    height: ladder.indexOf(rung),
    lot: each.lot,
  });
  const submit = (to: Door, which: Finding) => (): Promise<void> =>
    kept(to, watch, (standing) =>
      decide(editions.find(({ edition }) => edition === standing.edition)!, standing, which, at),
    );
  if (each.what !== "two at once") return submit(door, finding);
  // Another device, at the same moment: the same take again, or one more.
  const other = each.level % 2 === 0 ? finding : { ...finding, take: `${name}-other` };
  return async () => {
    const [first, second] = [submit(door, finding), submit(school[1 - each.device] ?? door, other)];
    const ended = await Promise.allSettled([first(), second()]);
    for (const each of ended) if (each.status === "rejected") throw each.reason;
  };
}

type Deciding = (standing: Standing) => { readonly events: readonly JournalEvent[]; readonly standing: Standing };

async function kept({ store }: Door, watch: Watch, deciding: Deciding): Promise<void> {
  let before: Standing | undefined;
  const { events, standing } = await record(store, KEY, (journal) => {
    before = journal!.standing!;
    return deciding(before);
  });
  watch.decided?.(before!, events, standing);
}

/** A take of a student at so high a rung, as luck has it. */
function played(
  { clean, less, unclear }: Student,
  { name, drill, rung, height, lot }: { name: string; drill: string; rung: string; height: number; lot: number },
): Finding {
  const chance = Math.max(0.05, clean - less * Math.max(0, height));
  const luck = random(`${name} ${lot}`);
  const drawn = luck.uniform();
  const verdict: Verdict = drawn < unclear ? "unclear" : drawn < unclear + (1 - unclear) * chance ? "within" : "beyond";
  const found = findingOf(name, drill, rung, verdict);
  return { ...found, steadiness: { ...found.steadiness, accompaniedMs: 8 + 30 * luck.uniform() } };
}

/** Brings a tablet and a school together: out of order, some of it twice; or only some of what the tablet has. */
async function sync(school: Door, tablet: Door, { what, pick, level }: Step): Promise<void> {
  const chance = random(`${pick}/${level}`);
  const events = await all(tablet.store.events(KEY));
  const some = what === "sync" ? [...events, ...events.slice(0, 5)] : events.filter(() => chance.uniform() < 0.6);
  const late = some.map((event) => ({ event, key: chance.uniform() })).sort((a, b) => a.key - b.key);
  for (let from = 0; from < late.length; from += 20)
    await school.store.merge(
      KEY,
      late.slice(from, from + 20).map(({ event }) => event),
    );
  if (what === "sync") await tablet.store.merge(KEY, (await all(school.store.events(KEY))).reverse());
}
