import type { Curriculum } from "../../lib/curriculum/index.js";
import { beginJournal, type Decision, decide, drillStanding } from "../../lib/progress/index.js";
import type { JournalEvent, Standing, Verdict } from "../../lib/schema/index.js";
import { findingOf, timeOf } from "./course.js";

/** A student's lessons as they go on: plays takes to the present rung and keeps the journal. */
export interface Lessons {
  standing: Standing;
  readonly journal: JournalEvent[];
  takes: number;
}

export function beginLessons(curriculum: Curriculum, student = "tern"): Lessons {
  const { events, standing } = beginJournal(curriculum, student, timeOf(0));
  return { standing, journal: [...events], takes: 0 };
}

/** Plays one take to a rung (the present one when none is named) and records what is decided. */
export function play(
  lessons: Lessons,
  curriculum: Curriculum,
  take: { readonly drill: string; readonly verdict: Verdict; readonly rung?: string; readonly name?: string },
): Decision {
  const number = ++lessons.takes;
  const rung = take.rung ?? drillStanding(lessons.standing, take.drill)?.rung ?? "tempo=1,variant=plain";
  const finding = findingOf(take.name ?? `t${number}`, take.drill, rung, take.verdict);
  const decision = decide(curriculum, lessons.standing, finding, timeOf(number * 60));
  lessons.standing = decision.standing;
  lessons.journal.push(...decision.events);
  return decision;
}

const VERDICTS = { w: "within", b: "beyond", u: "unclear" } as const;

/** Plays a row of takes, one letter each; gives the last decision. */
export function playRow(
  lessons: Lessons,
  curriculum: Curriculum,
  row: { readonly drill: string; readonly takes: string },
): Decision {
  const decisions = [...row.takes].map((letter) =>
    play(lessons, curriculum, { drill: row.drill, verdict: VERDICTS[letter as "w"] }),
  );
  return decisions.at(-1)!;
}
