import { type Curriculum, compareEditionNumbers } from "../../curriculum/index.js";
import type { Standing } from "../../schema/index.js";
import { progressProblem } from "../codes.js";
import type { Problem } from "../problem.js";
import { sayProblem } from "../say.js";

/** The problem with a course that is an earlier edition than the one a student is in, by which nobody is moved; none with any other. */
export function editionBehind({ edition: found }: Curriculum, { student, edition }: Standing): readonly Problem[] {
  if (compareEditionNumbers(found, edition) >= 0) return [];
  const message = sayProblem("progress-problem.edition-behind", { student, edition, found });
  const remedy = sayProblem("progress-problem.edition-behind-remedy", { edition });
  return [progressProblem("EDITION_BEHIND", message, {}, remedy)];
}
