import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import {
  apply,
  compareEvents,
  drillStanding,
  fold,
  foldJournal,
  gateMet,
  journalText,
  readJournal,
  rungStanding,
  standingText,
  weigh,
} from "../../lib/progress/index.js";
import type { JournalEvent, Standing, TakeAssessed } from "../../lib/schema/index.js";
import { EDITIONS, type History, year, yearOnOneDevice } from "./history.js";

/** Histories are long, so few are enough: our choice, some seconds for each law. */
const RUNS = { numRuns: 6, endOnFailure: true };
vi.setConfig({ testTimeout: 120_000 });

/** The events of a history in the journal's order, and those of them that had an effect. */
function inOrder({ journal }: History): {
  readonly events: readonly JournalEvent[];
  readonly effective: readonly JournalEvent[];
} {
  const unique = [...new Map(journal.map((event) => [JSON.stringify(event), event])).values()].sort(compareEvents);
  const idle = new Set(
    fold(unique)
      .problems.filter(({ code }) => code !== "JOURNAL_GAP")
      .map(({ where }) => Number(where.pointer!.slice(1))),
  );
  const seen = new Set<string>();
  const effective = unique.filter((event, i) => {
    if (idle.has(i) || seen.has(event.id)) return false;
    seen.add(event.id);
    return true;
  });
  return { events: unique, effective };
}

const sorted = (rows: readonly object[]): readonly string[] => rows.map((row) => JSON.stringify(row)).sort();

const text = (standing: Standing | undefined): string => standingText(standing!);

/** What a student sees of a standing: where they are, what is complete and what is earned; not the lists of takes. */
function placesIn(standing: Standing): unknown {
  return standing.drills.map(({ drill, state, rung, by, completed, rungs: held }) => ({
    drill,
    state,
    rung,
    by,
    completed,
    earned: held.filter(({ credit }) => credit !== undefined),
    stay: rung && held.find((each) => each.rung === rung)!,
  }));
}

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
      RUNS,
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
      RUNS,
    );
  });
});

describe("a take counts once", () => {
  test("the same events give the same bytes, however often and in whatever order they are delivered", () => {
    fc.assert(
      fc.property(year, fc.infiniteStream(fc.nat()), ({ journal }, chance) => {
        const repeated = [...journal, ...journal.filter(() => chance.next().value! % 4 === 0)];
        const shuffled = repeated
          .map((event) => ({ event, key: chance.next().value! }))
          .sort((a, b) => a.key - b.key)
          .map(({ event }) => event);
        const standing = text(fold(journal).standing);
        expect(text(fold(shuffled).standing)).toBe(standing);
        const journalBytes = journalText(shuffled);
        expect(text(foldJournal(journalBytes).standing)).toBe(standing);
        const { events, lines } = readJournal(journalBytes);
        expect(foldJournal(journalBytes)).toEqual(fold(events, { lines }));
      }),
      RUNS,
    );
  });

  test("event by event gives what the whole journal gives, and so does going on from any standing on the way", () => {
    fc.assert(
      fc.property(year, fc.nat(), (history, cut) => {
        const { events } = inOrder(history);
        let standing = fold(events.slice(0, 1)).standing!;
        for (const event of events.slice(1)) standing = apply(standing, event).standing;
        expect(text(standing)).toBe(text(fold(events).standing));
        const half = 1 + (cut % (events.length - 1));
        const kept = JSON.parse(text(fold(events.slice(0, half)).standing)) as Standing;
        expect(text(fold(events.slice(half), { after: kept }).standing)).toBe(text(standing));
        expect(text(fold(events, { after: kept }).standing)).toBe(text(standing));
      }),
      RUNS,
    );
  });

  test("no take stands in two places of a standing, and every take stands in one", () => {
    fc.assert(
      fc.property(year, (history) => {
        const standing = fold(history.journal).standing!;
        const held = standing.drills.flatMap(({ rungs }) => rungs.flatMap(({ takes }) => takes));
        const played = new Set(
          history.journal.flatMap((event) => (event.kind === "take assessed" ? [event.take] : [])),
        );
        expect([...held].sort()).toEqual([...played].sort());
      }),
      RUNS,
    );
  });
});

describe("unclear takes, easing and cycles", () => {
  test("without its unclear takes a history leads to the same places", () => {
    fc.assert(
      fc.property(year, (history) => {
        const { journal } = history;
        // Two devices may tell one take differently: what counted of it is what is left out, with all that was said of it.
        const counted = new Map(
          inOrder(history).effective.flatMap((event) =>
            event.kind === "take assessed" ? [[event.take, event.verdict]] : [],
          ),
        );
        const clear = journal.filter(
          (event) => event.kind !== "take assessed" || counted.get(event.take) !== "unclear",
        );
        const bare = (standing: Standing | undefined): unknown =>
          JSON.parse(
            JSON.stringify(placesIn(standing!), (key, value) =>
              key === "stay"
                ? [...value.outcomes].filter((letter, i) => i >= value.from && letter !== "u").join("")
                : key === "earned"
                  ? value
                      .map(({ rung, credit }: { rung: string; credit: unknown }) => ({ rung, credit }))
                      .sort((a: { rung: string }, b: { rung: string }) => (a.rung < b.rung ? -1 : 1))
                  : value,
            ),
          );
        const drills = (standing: Standing): Standing => ({
          ...standing,
          drills: standing.drills
            .filter(({ state }) => state !== "closed")
            .sort((a, b) => (a.drill < b.drill ? -1 : 1)),
        });
        expect(bare(drills(fold(clear).standing!))).toEqual(bare(drills(fold(journal).standing!)));
      }),
      RUNS,
    );
  });

  test("an unclear take decides nothing", () => {
    fc.assert(
      fc.property(year, ({ decisions }) => {
        for (const { events, before, standing, what } of decisions) {
          const take = events.find((event) => event.kind === "take assessed");
          if (take?.kind !== "take assessed" || take.verdict !== "unclear" || before.edition !== standing.edition)
            continue;
          if (events.some((event) => event.kind === "edition changed")) continue;
          expect(what).toBe("hold");
          expect(events).toEqual([take]);
        }
      }),
      RUNS,
    );
  });

  test("easing goes down the ladder, never past its first rung, on enough takes beyond in a row", () => {
    fc.assert(
      fc.property(year, ({ decisions }) => {
        for (const { what, course, drill: name, from, to, evidence, standing } of decisions) {
          if (what !== "ease") continue;
          const drill = course.drills.find((each) => each.name === name)!;
          const ladder = rungs(drill);
          const index = (rung: string): number =>
            Array.from({ length: ladder.count }, (_, i) => settingsText(ladder.at(i).settings)).indexOf(rung);
          expect(index(to!)).toBe(Math.max(0, index(from!) - drill.ease!.by));
          expect(index(to!)).toBeLessThan(index(from!));
          expect(evidence).toHaveLength(drill.ease!.after);
          const arrived = rungStanding(drillStanding(standing, drill.name)!, to!)!;
          expect(arrived).toMatchObject({ from: arrived.takes.length });
          expect(arrived.credit).toBeUndefined();
        }
      }),
      RUNS,
    );
  });

  test("no two decisions rest on the same last take, so that none can follow another without a new one", () => {
    fc.assert(
      fc.property(year, (history) => {
        const last = new Set<string>();
        for (const event of inOrder(history).effective) {
          if (event.kind !== "advanced" && event.kind !== "drill completed" && event.kind !== "eased") continue;
          expect(last).not.toContain(event.evidence.at(-1));
          last.add(event.evidence.at(-1)!);
        }
      }),
      RUNS,
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
      RUNS,
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
      RUNS,
    );
  });
});

describe("a new edition never loses evidence", () => {
  test("every take is kept, credit stays with the rungs that stand, and all other credit is listed", () => {
    fc.assert(
      fc.property(year, ({ changes }) => {
        for (const { before, after, course, events } of changes) {
          const takes = ({ drills }: Standing): readonly string[] =>
            drills.flatMap(({ rungs }) =>
              rungs.flatMap(({ takes, outcomes }) => takes.map((take, i) => `${take} ${outcomes[i]}`)),
            );
          expect([...takes(after)].sort()).toEqual([...takes(before)].sort());
          const stands = new Map(
            course.drills.map((drill) => {
              const ladder = rungs(drill);
              return [drill.name, Array.from({ length: ladder.count }, (_, i) => settingsText(ladder.at(i).settings))];
            }),
          );
          const credits = after.drills.flatMap(({ drill, rungs }) =>
            rungs.filter(({ credit }) => credit !== undefined).map(({ rung }) => ({ drill, rung })),
          );
          const countOf = ({ drills }: Standing): number =>
            drills.flatMap(({ rungs }) => rungs.filter(({ credit }) => credit !== undefined)).length;
          expect(credits).toHaveLength(countOf(before));
          const gone = credits.filter(({ drill, rung }) => !stands.get(drill)?.includes(rung));
          for (const event of events)
            if (event.kind === "edition changed") expect(sorted(event.lost)).toEqual(sorted(gone));
          for (const { drill, state, rung, withdrawn } of after.drills) {
            expect(withdrawn === true).toBe(!stands.has(drill));
            if (state !== "closed" && withdrawn !== true) expect(stands.get(drill)).toContain(rung);
          }
        }
      }),
      RUNS,
    );
  });
});

describe("a corrupt or foreign journal is refused event by event", () => {
  const spoilt = (event: JournalEvent, way: number): { readonly event: unknown; readonly code: string } => {
    const { student: _student, ...nobody } = event;
    const later = { ...event, turn: event.turn + 1, id: `${event.id}x` };
    const advance = {
      ...event,
      kind: "advanced",
      id: "a",
      drill: "steady",
      from: "f",
      to: "g",
      gate: { kind: "in a row", count: 1 },
    };
    const ways: readonly { readonly event: unknown; readonly code: string }[] = [
      { event: null, code: "EVENT_MALFORMED" },
      { event: [event], code: "EVENT_MALFORMED" },
      { event: nobody, code: "EVENT_MALFORMED" },
      { event: { ...event, mood: "good" }, code: "EVENT_MALFORMED" },
      { event: { ...event, turn: 1.5 }, code: "EVENT_MALFORMED" },
      { event: { ...event, at: "yesterday" }, code: "EVENT_MALFORMED" },
      { event: { ...event, version: 2 }, code: "EVENT_VERSION_UNKNOWN" },
      { event: { ...event, kind: "praised" }, code: "EVENT_KIND_UNKNOWN" },
      {
        event: { ...later, ...(event.kind === "take assessed" ? { id: event.id } : {}), student: "gull" },
        code: "EVENT_FOREIGN",
      },
      { event: { ...event, curriculum: "another" }, code: "EVENT_FOREIGN" },
      {
        event: Object.fromEntries(
          Object.entries({ ...advance, turn: event.turn + 1, evidence: ["never played"], against: [] }).filter(
            ([key]) =>
              "version kind id turn at student curriculum drill from to gate evidence against".split(" ").includes(key),
          ),
        ),
        code: "EVIDENCE_UNKNOWN",
      },
    ];
    return ways[way % ways.length]!;
  };

  test("what is good counts as if the rest were not there, and each refused event is named", () => {
    fc.assert(
      fc.property(
        year,
        fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 60 }),
        ({ journal }, places) => {
          const mixed: unknown[] = [...journal];
          const codes: string[] = [];
          for (const [place, way] of places) {
            const { event, code } = spoilt(journal[place % journal.length]!, way);
            mixed.splice(place % mixed.length, 0, event);
            codes.push(code);
          }
          const { standing, problems } = fold(mixed as JournalEvent[], {
            of: { student: "tern", curriculum: EDITIONS[0]!.name },
          });
          const clean = fold(journal);
          expect(text(standing)).toBe(text(clean.standing));
          const errors = (all: typeof problems): string[] =>
            all.filter(({ severity }) => severity === "error").map(({ code }) => code);
          expect(errors(problems).sort()).toEqual([...codes, ...errors(clean.problems)].sort());
          for (const problem of problems) expect(problem.where.pointer).toMatch(/^\/\d+$/);
        },
      ),
      RUNS,
    );
  });

  test("what one device writes is never refused", () => {
    fc.assert(
      fc.property(yearOnOneDevice, ({ journal, standing }) => {
        expect(fold(journal).problems).toEqual([]);
        expect(text(fold(journal).standing)).toBe(text(standing));
      }),
      RUNS,
    );
  });
});
