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
    const outcome = fc.constantFrom(0, 0, 0, 1, 2, 5);
    fc.assert(
      fc.property(fc.array(outcome, { minLength: 40, maxLength: 160 }), (outcomes) => {
        climb.begin();
        let { standing } = beginJournal(curriculum, "tern", "2026-03-02T17:00:00Z");
        outcomes.forEach((came, n) => {
          const d = climb.places.state.indexOf(1);
          if (d < 0) return;
          const { drill } = course.drills[d]!;
          const held = drillStanding(standing, drill.name)!;
          expect(climb.places.rung[d]).toBe(rungCalled(drill, held.rung)!.index);
          const verdict = came === 0 ? "within" : came === 1 ? "unclear" : "beyond";
          const rung = settingsText(rungs(drill).at(climb.places.rung[d]!).settings);
          const finding = { ...blank, drill: drill.name, rung, take: `${n}`, verdict } as const;
          const decision = decide(curriculum, standing, finding, "2026-03-02T17:00:00Z");
          standing = decision.standing;
          expect(climb.take(d, came)).toBe(decision.what);
        });
      }),
      { numRuns: 12 },
    );
  });
});
