import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { carriedTo, compareEditions } from "../../../lib/curriculum/index.js";
import { rungs, settingsText } from "../../../lib/drill/index.js";
import {
  drillStanding,
  effectOfEdition,
  fold,
  isCompleted,
  placeByTeacher,
  rungStanding,
  standingText,
} from "../../../lib/progress/index.js";
import type { DrillStanding, EditionChanged, Standing } from "../../../lib/schema/index.js";
import { timeOf } from "../course.js";
import { goOn, pair, steps, study, takeOver } from "../editions.js";

const RUNS = { numRuns: 300 };

/** What a student has shown and where they are; how they came there, and where stays on other rungs began, says nothing about either. */
function shown({ drill, state, withdrawn, rung, takenFrom, completed, rungs }: DrillStanding): object {
  const stay = rungs.find((held) => held.rung === rung);
  const all = rungs
    .filter(({ takes }) => takes.length > 0)
    .map(({ rung: each, takes, outcomes, credit }) => ({ rung: each, takes, outcomes, credit }));
  return { drill, state, withdrawn, rung, takenFrom, completed, ...(stay && { from: stay.from }), rungs: all };
}

const editionEvent = (events: readonly { readonly kind: string }[]): EditionChanged | undefined =>
  events.find((event): event is EditionChanged => event.kind === "edition changed");

describe("an edition and back", () => {
  test("old -> new -> old gives back every drill: rung, state, takes, credit, completion and the evidence of the stay", () => {
    fc.assert(
      fc.property(pair, steps, ({ old, now }, done) => {
        const begun = study(old, done);
        const there = takeOver(now, begun, { before: old, at: 90_000 });
        const back = takeOver(old, there, { before: now, at: 91_000 });
        for (const held of begun.standing.drills) {
          const after = drillStanding(back.standing, held.drill)!;
          // What has opened stays open: a drill is not taken away from a student who was let into it.
          const { state, rung, takenFrom } = after;
          const opened = held.state === "closed" ? { state, rung, takenFrom, from: expect.anything() } : {};
          expect({ from: 0, ...shown(after) }).toEqual({ from: 0, ...shown(held), ...opened });
        }
        expect(back.standing.edition).toBe("1.0.0");
      }),
      RUNS,
    );
  });

  test("unclear takes played in between are kept, and change nothing of that", () => {
    fc.assert(
      fc.property(pair, steps, steps, ({ old, now }, done, between) => {
        const begun = study(old, done);
        const there = takeOver(now, begun, { before: old, at: 90_000 });
        const unclear = between.map((step) => ({ ...step, what: "take" as const, verdict: "unclear" as const }));
        const later = goOn(now, there, { done: unclear, from: 2000 });
        const back = takeOver(old, later, { before: now, at: 991_000 });
        for (const { drill, rung, state, completed } of begun.standing.drills.filter((held) => held.state !== "closed"))
          expect(drillStanding(back.standing, drill)).toMatchObject({
            state,
            ...(rung && { rung }),
            ...(completed && { completed }),
          });
        const takes = (standing: Standing): number =>
          standing.drills.flatMap(({ rungs }) => rungs.flatMap((held) => held.takes)).length;
        expect(takes(back.standing)).toBe(takes(later.standing));
      }),
      RUNS,
    );
  });

  test("whatever is done in between, no take and no completion is forgotten, and what was earned stays earned unless it lapsed", () => {
    fc.assert(
      fc.property(pair, steps, steps, ({ old, now }, done, between) => {
        const begun = study(old, done);
        const there = takeOver(now, begun, { before: old, at: 90_000 });
        const later = goOn(now, there, { done: between, from: 2000 });
        const back = takeOver(old, later, { before: now, at: 991_000 });
        const dropped = new Set(
          later.journal
            .slice(there.journal.length)
            .flatMap((event) =>
              event.kind === "gone back" ? event.lapsed : event.kind === "set by teacher" ? [event.to] : [],
            ),
        );
        for (const held of begun.standing.drills) {
          const after = drillStanding(back.standing, held.drill)!;
          for (const { rung, takes, credit } of held.rungs) {
            const same = rungStanding(after, rung);
            expect(same?.takes ?? []).toEqual(expect.arrayContaining([...takes]));
            if (credit !== undefined && !dropped.has(rung)) expect(same?.credit).toBeDefined();
          }
          if (isCompleted(begun.standing, held.drill)) expect(isCompleted(back.standing, held.drill)).toBe(true);
        }
      }),
      RUNS,
    );
  });

  test("a teacher's placement made meanwhile stands: no edition takes the student back behind it", () => {
    fc.assert(
      fc.property(pair, steps, fc.nat(20), fc.nat(20), ({ old, now }, done, pick, level) => {
        const there = takeOver(now, study(old, done), { before: old, at: 90_000 });
        const drill = now.drills[pick % now.drills.length]!;
        const placement = {
          drill: drill.name,
          rung: String(1 + (level % drill.ladders[0]!.count)),
          at: timeOf(90_500),
        };
        const placed = placeByTeacher(now, there.standing, placement);
        if (!placed.ok) throw new Error("not placed");
        const journal = [...there.journal, ...placed.value.events];
        const put = drillStanding(placed.value.standing, drill.name)!;
        expect(put).toMatchObject({ by: "set by teacher", state: "open" });
        expect(put.takenFrom).toBeUndefined();
        const back = takeOver(old, { standing: placed.value.standing, journal }, { before: now, at: 91_000 });
        const carried = carriedTo(old, drill.name, put.rung!, { before: now });
        const event = editionEvent(back.journal.slice(journal.length));
        if (carried !== undefined && !event?.withdrawn.includes(drill.name))
          expect(drillStanding(back.standing, carried.drill)!.rung).toBe(put.rung);
      }),
      RUNS,
    );
  });
});

describe("compareEditions() and the journal", () => {
  test("agree: credit is listed as lost exactly where no rung carries it on, and a drill that keeps every rung moves nobody", () => {
    fc.assert(
      fc.property(pair, steps, ({ old, now }, done) => {
        const begun = study(old, done);
        const { drills } = compareEditions(old, now);
        const effect = effectOfEdition(now, begun.standing, { before: old, at: timeOf(90_000) });
        const event = editionEvent(effect.events)!;
        for (const held of begun.standing.drills) {
          const change = drills.find(({ drill }) => drill === held.drill)!;
          const told = effect.drills.find(({ drill }) => drill === held.drill)!;
          expect(told.now).toBe(change.now);
          const gone = held.rungs.filter(({ rung }) => carriedTo(now, held.drill, rung) === undefined);
          const credit = gone.filter((rung) => rung.credit !== undefined).map(({ rung }) => rung);
          expect(
            event.lost.filter(({ drill }) => drill === (change.now ?? held.drill)).map(({ rung }) => rung),
          ).toEqual(credit);
          expect(told.lost).toEqual({ credit, takes: gone.flatMap(({ takes }) => takes).length });
          expect(told.outcome === "withdrawn").toBe(change.now === undefined);
          expect(gone.filter(({ rung }) => carriedTo(old, held.drill, rung) !== undefined).length).toBeLessThanOrEqual(
            change.rungs - change.kept,
          );
          if (change.kept < change.rungs) continue;
          expect(told.lost).toEqual({ takes: 0, credit: [] });
          expect(told.outcome).toBe(told.state === "closed" && told.stateNow === "open" ? "opens" : "stays");
        }
      }),
      RUNS,
    );
  });

  test("a student whose rung is gone goes to the nearest lower one that stands, or to the first rung", () => {
    fc.assert(
      fc.property(pair, steps, ({ old, now }, done) => {
        const begun = study(old, done);
        const event = editionEvent(
          takeOver(now, begun, { before: old, at: 90_000 }).journal.slice(begun.journal.length),
        )!;
        for (const { drill, from, to } of event.moved) {
          const successor = now.drills.find(({ name }) => name === drill)!;
          const was = old.drills.find(({ name }) => (carriedTo(now, name, to)?.drill ?? "") === drill)!;
          expect(carriedTo(now, was.name, from)).toBeUndefined();
          const all = rungs(was);
          const standing = (index: number): boolean =>
            carriedTo(now, was.name, settingsText(all.at(index).settings)) !== undefined;
          const left = carriedTo(old, was.name, from)!.index;
          const below = Array.from({ length: left }, (_, i) => left - 1 - i).find(standing);
          const target = below === undefined ? rungs(successor).at(0) : all.at(below);
          expect(to).toBe(settingsText(target.settings));
        }
      }),
      RUNS,
    );
  });

  test("replay gives the same bytes, in whatever order the events arrive", () => {
    fc.assert(
      fc.property(pair, steps, steps, fc.infiniteStream(fc.nat()), ({ old, now }, done, between, chance) => {
        const there = takeOver(now, study(old, done), { before: old, at: 90_000 });
        const later = goOn(now, there, { done: between, from: 2000 });
        const back = takeOver(old, later, { before: now, at: 991_000 });
        const shuffled = [...back.journal]
          .map((event) => ({ event, key: chance.next().value! }))
          .sort((a, b) => a.key - b.key)
          .map(({ event }) => event);
        const { standing, problems } = fold(shuffled);
        expect(problems).toEqual([]);
        expect(standingText(standing!)).toBe(standingText(back.standing));
      }),
      RUNS,
    );
  });

  test("an effect is foreseen as it comes: the same events, and affected means that something is otherwise", () => {
    fc.assert(
      fc.property(pair, steps, ({ old, now }, done) => {
        const begun = study(old, done);
        const effect = effectOfEdition(now, begun.standing, { before: old, at: timeOf(90_000) });
        const { standing, journal } = takeOver(now, begun, { before: old, at: 90_000 });
        expect(effect.events).toEqual(journal.slice(begun.journal.length));
        expect(effect.standing).toEqual(standing);
        const bare = (each: Standing): unknown => each.drills.map(shown);
        if (!effect.isAffected) expect(bare(standing)).toEqual(bare(begun.standing));
        expect(effectOfEdition(old, begun.standing, { before: old, at: timeOf(90_000) })).toMatchObject({
          isAffected: false,
          events: [],
        });
      }),
      RUNS,
    );
  });
});
