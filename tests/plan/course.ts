import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { type Demand, demandOf, type Observation } from "../../lib/plan/index.js";
import { beginJournal, decide, drillStanding } from "../../lib/progress/index.js";
import type { Finding, JournalEvent, Standing, Verdict } from "../../lib/schema/index.js";
import { ROOT } from "../sources.js";
import { must } from "../time/shorthand.js";

/** The first course that is shipped. */
export const FIRST_COURSE: Curriculum = must(
  readCurriculum(readFileSync(join(ROOT, "curricula", "quayside-first-course.yaml"), "utf8"), {
    file: "quayside-first-course.yaml",
    readFile: () => undefined,
  }),
);

export function drillNamed(name: string): Curriculum["drills"][number] {
  return FIRST_COURSE.drills.find((drill) => drill.name === name)!;
}

export function demandAt(drill: string, index: number): Demand {
  return demandOf(scoreOf(rungs(drillNamed(drill)).at(index)));
}

const unmeasured = { unmeasured: "not measured here" };

/** A finding with nothing but a verdict and a steadiness. */
function findingOf(take: string, { drill, rung, verdict }: { drill: string; rung: string; verdict: Verdict }): Finding {
  const steadiness = verdict === "within" ? 12 : 60;
  return {
    version: 1,
    take,
    drill,
    rung,
    mix: "play",
    verdict,
    probability: unmeasured,
    reasons: [],
    pairs: [],
    missed: [],
    added: [],
    offsetMs: -20,
    dropouts: [],
    openBars: [],
    steadiness: {
      accompaniedMs: steadiness,
      aloneMs: unmeasured,
      clockMs: unmeasured,
      motorMs: unmeasured,
      verdict,
      probability: unmeasured,
    },
    sentence: "",
  };
}

export interface Student {
  standing: Standing;
  readonly events: JournalEvent[];
}

export function enrolled(curriculum: Curriculum = FIRST_COURSE): Student {
  const { standing, events } = beginJournal(curriculum, "tern", "2026-03-01T17:00:00Z");
  return { standing, events: [...events] };
}

/** Takes at the rung the student is on in the first drill that is open, one letter each, one day after another. */
export function played(letters: string, { curriculum = FIRST_COURSE, student = enrolled(curriculum) } = {}): Student {
  const VERDICTS: Readonly<Record<string, Verdict>> = { w: "within", b: "beyond", u: "unclear" };
  [...letters].forEach((letter, i) => {
    const open = student.standing.drills.find(({ state }) => state === "open");
    if (open === undefined) return;
    const finding = findingOf(`t${student.events.length}-${i}`, {
      drill: open.drill,
      rung: open.rung!,
      verdict: VERDICTS[letter]!,
    });
    const day = String(1 + Math.floor(i / 10)).padStart(2, "0");
    const decision = decide(curriculum, student.standing, finding, `2026-03-${day}T18:00:00Z`);
    student.standing = decision.standing;
    student.events.push(...decision.events);
  });
  return student;
}

export const rungOf = (student: Student, drill: string): string | undefined =>
  drillStanding(student.standing, drill)?.rung;

/** A take of a player whose figures are so many times those of a middling one. */
export function evidence(demand: Demand, verdict: Verdict, by: number): Observation {
  return {
    demand,
    verdict,
    accompaniedMs: 22 * by,
    ...(demand.silences.length > 0 ? { driftMs: 40 * by, standardErrorMs: 10 * by } : {}),
  };
}
