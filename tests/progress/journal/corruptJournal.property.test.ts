import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fold, standingText } from "../../../lib/progress/index.js";
import type { JournalEvent, Standing } from "../../../lib/schema/index.js";
import { expectWorded } from "../../words/problemWords.js";
import { EDITIONS, YEARS, year, yearOnOneDevice } from "../history.js";

const text = (standing: Standing | undefined): string => standingText(standing!);

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
      { event: { ...event, version: 3 }, code: "EVENT_VERSION_UNKNOWN" },
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
          for (const problem of problems) {
            expect(problem.where.pointer).toMatch(/^\/\d+$/);
            expectWorded(problem);
          }
        },
      ),
      YEARS,
    );
  });

  test("what one device writes is never refused", () => {
    fc.assert(
      fc.property(yearOnOneDevice, ({ journal, standing }) => {
        expect(fold(journal).problems).toEqual([]);
        expect(text(fold(journal).standing)).toBe(text(standing));
      }),
      YEARS,
    );
  });
});
