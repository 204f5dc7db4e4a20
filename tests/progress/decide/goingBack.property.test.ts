import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../../lib/drill/index.js";
import { drillStanding, fold, rungStanding } from "../../../lib/progress/index.js";
import type { Standing } from "../../../lib/schema/index.js";
import { inOrder, YEARS, year } from "../history.js";

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

describe("unclear takes, going back and cycles", () => {
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
      YEARS,
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
      YEARS,
    );
  });

  test("going back goes down the ladder, never past its first rung, on enough takes beyond in a row", () => {
    fc.assert(
      fc.property(year, ({ decisions }) => {
        for (const { what, course, drill: name, from, to, evidence, standing } of decisions) {
          if (what !== "go back") continue;
          const drill = course.drills.find((each) => each.name === name)!;
          const ladder = rungs(drill);
          const index = (rung: string): number =>
            Array.from({ length: ladder.count }, (_, i) => settingsText(ladder.at(i).settings)).indexOf(rung);
          expect(index(to!)).toBe(Math.max(0, index(from!) - drill.goBack!.by));
          expect(index(to!)).toBeLessThan(index(from!));
          expect(evidence).toHaveLength(drill.goBack!.after);
          const arrived = rungStanding(drillStanding(standing, drill.name)!, to!)!;
          expect(arrived).toMatchObject({ from: arrived.takes.length });
          expect(arrived.credit).toBeUndefined();
        }
      }),
      YEARS,
    );
  });

  test("no two decisions rest on the same last take, so that none can follow another without a new one", () => {
    fc.assert(
      fc.property(year, (history) => {
        const last = new Set<string>();
        for (const event of inOrder(history).effective) {
          if (event.kind !== "advanced" && event.kind !== "drill completed" && event.kind !== "gone back") continue;
          expect(last).not.toContain(event.evidence.at(-1));
          last.add(event.evidence.at(-1)!);
        }
      }),
      YEARS,
    );
  });
});
