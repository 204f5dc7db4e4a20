import { type Problem as ProblemOf, problemsOf } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import type { RehearsalFinding, RehearsalResults } from "../../schema/index.js";
import { rehearsalCodes } from "../codes.js";
import type { RehearsalOptions } from "../rehearse.js";
import { findingSaid } from "./wording.js";

const problem = problemsOf(rehearsalCodes);

/** The small fixed rehearsal that a course is checked by: a school year, so that walls show that one term hides. Our choice. */
export const CHECKED: { readonly students: number; readonly options: RehearsalOptions } = {
  students: 400,
  options: { seed: "check", weeks: 40 },
};

const CODES: Readonly<Record<RehearsalFinding["what"], keyof typeof rehearsalCodes>> = {
  wall: "REHEARSED_WALL",
  "nobody can fail": "REHEARSED_RUNG_NOBODY_FAILS",
  "nobody passes": "REHEARSED_GATE_NOBODY_PASSES",
  "longer than a term": "REHEARSED_DRILL_LONGER_THAN_TERM",
};

/** What a rehearsal found as advice to the author, each at the limit, the gate or the ladders of its drill. */
export function rehearsalAdvice(
  { drills }: Curriculum,
  { findings }: Pick<RehearsalResults, "findings">,
): readonly ProblemOf<keyof typeof rehearsalCodes>[] {
  return findings.map((finding) => {
    const { sentence, remedy } = findingSaid(finding);
    const drill = drills.find(({ name }) => name === finding.drill);
    const key = {
      wall: "tolerance",
      "nobody can fail": "tolerance",
      "nobody passes": "gate",
      "longer than a term": "ladders",
    }[finding.what];
    return problem(
      CODES[finding.what],
      sentence,
      { pointer: `/drills/${drill?.name ?? finding.drill}/${key}` },
      remedy,
    );
  });
}
