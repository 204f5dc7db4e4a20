import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drillStanding, fold, gateMet, rungStanding, weigh } from "../../../lib/progress/index.js";
import type { TakeAssessed } from "../../../lib/schema/index.js";
import { EDITIONS, inOrder, YEARS, year } from "../history.js";

describe("a rung is left upward only by its gate", () => {
  test("every advance rests on clean takes of that rung, counted before, each listed once, that meet its gate", () => {
    fc.assert(
      fc.property(year, (history) => {
        const { effective } = inOrder(history);
        const takes = new Map<string, TakeAssessed>();
        const earned = new Map<string, readonly string[]>();
        const spent = new Set<string>();
        for (const event of effective) {
          if (event.kind === "take assessed") takes.set(event.take, event);
          if (event.kind !== "advanced" && event.kind !== "drill completed") continue;
          expect(new Set(event.evidence).size).toBe(event.evidence.length);
          // Drills may have been renamed since the take: the rung tells, as no two drills here share one and a name.
          for (const take of event.evidence)
            expect(takes.get(take)).toMatchObject({ verdict: "within", rung: event.from });
          for (const take of event.against)
            expect(takes.get(take)).toMatchObject({ verdict: "beyond", rung: event.from });
          const fresh = event.evidence.filter((take) => !spent.has(take));
          if (event.credit === undefined) {
            expect(gateMet(event.gate, event.evidence.length, event.against.length)).toBe(true);
            expect(fresh).toEqual(event.evidence);
            earned.set(event.id, event.evidence);
          } else expect(event.evidence).toEqual([...earned.get(event.credit)!, ...fresh]);
          expect(fresh.length).toBeGreaterThan(0);
          for (const take of event.evidence) spent.add(take);
        }
      }),
      YEARS,
    );
  });

  test("decide() advances exactly when the stay on the rung meets the gate of the edition in force", () => {
    fc.assert(
      fc.property(year, ({ decisions }) => {
        for (const { what, before, drill: name, from, events, course } of decisions) {
          const take = events.find((event) => event.kind === "take assessed");
          if (take?.kind !== "take assessed" || take.rung !== from || before.edition !== course.edition) continue;
          const drill = course.drills.find((each) => each.name === name)!;
          const held = drillStanding(before, drill.name)!;
          if (held.state !== "open") continue;
          const rung = rungStanding(held, from)!;
          const letter = { within: "w", beyond: "b", unclear: "u" }[take.verdict];
          const met = weigh(drill.gate, rung.outcomes.slice(rung.from) + letter).met || rung.credit !== undefined;
          expect(what === "advance" || what === "complete").toBe(take.verdict === "within" && met);
        }
      }),
      YEARS,
    );
  });
});

describe("a drill opens only when all it needs is met", () => {
  test("all it needs was completed on evidence before, unless a teacher opened it", () => {
    fc.assert(
      fc.property(year, (history) => {
        const completed = new Set<string>();
        for (const event of inOrder(history).effective) {
          if (event.kind === "drill completed") completed.add(event.drill);
          if (event.kind === "edition changed")
            for (const { from, to } of event.renamed) if (completed.delete(from)) completed.add(to);
          if (event.kind !== "drill opened") continue;
          for (const need of event.needs) expect(completed).toContain(need);
          // The needs are those some edition states: a device may not have heard of the newest one.
          const stated = EDITIONS.flatMap(({ drills }) => drills.filter(({ name }) => name === event.drill));
          expect(stated.map(({ needs }) => needs)).toContainEqual(event.needs);
        }
      }),
      YEARS,
    );
  });

  test("every open or complete drill was opened by an event, and every complete one completed by one", () => {
    fc.assert(
      fc.property(year, (history) => {
        const { effective } = inOrder(history);
        const ids = new Map(effective.map((event) => [event.id, event.kind]));
        for (const { state, completed, by } of fold(history.journal).standing!.drills) {
          expect(by === undefined).toBe(state === "closed");
          if (state === "complete") expect(completed).toBeDefined();
          if (completed !== undefined) expect(ids.get(completed.event)).toBe("drill completed");
        }
      }),
      YEARS,
    );
  });
});
