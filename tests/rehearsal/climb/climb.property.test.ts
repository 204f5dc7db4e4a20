import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rungCalled, rungs, settingsText } from "../../../lib/drill/index.js";
import { beginJournal, decide, drillStanding } from "../../../lib/progress/index.js";
import { countedClimb } from "../../../lib/rehearsal/climb/climb.js";
import { rehearsedCourse } from "../../../lib/rehearsal/climb/rehearsedCourse.js";
import { assess } from "../../../lib/take/index.js";
import { firstCourseWith } from "../courses.js";

const RULES = [
  "gate: { clean: 3, of: 4 }\ngo-back: { after: 3 }\n",
  "gate: { clean: 1, of: 1 }\ngo-back: { after: 2, by: 2 rungs }\n",
  "gate: { in-a-row: 2 }\n",
  "gate: { clean: 2, of: 5 }\ngo-back: { after: 4 }\n",
  'gate: { sequential: { able: "85 %", unready: "50 %" } }\ngo-back: { after: 3 }\n',
];

describe("countedClimb()", () => {
  test.each(RULES)("moves as decide() does, whatever the takes come to: %s", (rules) => {
    const curriculum = firstCourseWith(rules);
    const course = rehearsedCourse(curriculum);
    const climb = countedClimb(course);
    const blank = assess(course.drills[0]!.rungs[0]!.score, { version: 1, onsets: [], zero: "bar-1" });
    const silence = assess(course.drills[1]!.rungs[0]!.score, { version: 1, onsets: [], zero: "bar-1" }).dropouts[0]!;
    // What a take came to, how many of its four landings were left out, and how many of twenty other notes.
    const outcome = fc.tuple(
      fc.constantFrom(0, 0, 0, 1, 2, 5),
      fc.constantFrom(0, 0, 1, 3, 4),
      fc.constantFrom(0, 1, 5),
    );
    fc.assert(
      fc.property(fc.array(outcome, { minLength: 40, maxLength: 160 }), (outcomes) => {
        climb.begin();
        let { standing } = beginJournal(curriculum, "tern", "2026-03-02T17:00:00Z");
        outcomes.forEach(([came, landings, notes], n) => {
          const d = climb.places.state.indexOf(1);
          if (d < 0) return;
          const { drill } = course.drills[d]!;
          const held = drillStanding(standing, drill.name)!;
          expect(climb.places.rung[d]).toBe(rungCalled(drill, held.rung)!.index);
          const verdict = came === 0 ? ("within" as const) : came === 1 ? ("unclear" as const) : ("beyond" as const);
          const rung = settingsText(rungs(drill).at(climb.places.rung[d]!).settings);
          const landing = (i: number) => (i < landings ? { leftOut: true as const } : { ms: 0, standardErrorMs: 5 });
          const finding = {
            ...{ ...blank, drill: drill.name, rung, take: `${n}`, verdict },
            dropouts: [0, 1, 2, 3].map((i) => ({ ...silence, landing: landing(i) })),
            missed: Array.from({ length: landings + notes }, (_, i) => i),
            pairs: Array.from({ length: 24 - landings - notes }, (_, i): [number, number] => [i, i]),
          };
          const decision = decide(curriculum, standing, finding, "2026-03-02T17:00:00Z");
          standing = decision.standing;
          expect(
            climb.take(d, { nth: n, outcome: came }, (nth) => ({
              landings: { out: outcomes[nth]![1], asked: 4 },
              notes: { out: outcomes[nth]![2], asked: 20 },
            })),
          ).toBe(decision.what);
        });
      }),
      { numRuns: 12 },
    );
  });
});
