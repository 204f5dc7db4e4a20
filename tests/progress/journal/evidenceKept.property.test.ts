import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../../lib/drill/index.js";
import type { Standing } from "../../../lib/schema/index.js";
import { YEARS, year } from "../history.js";

const sorted = (rows: readonly object[]): readonly string[] => rows.map((row) => JSON.stringify(row)).sort();

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
      YEARS,
    );
  });
});
