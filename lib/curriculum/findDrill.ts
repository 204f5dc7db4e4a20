import { failure, nearestName, renamedTo, success } from "../base/index.js";
import type { Drill } from "../drill/index.js";
import { problem } from "./codes.js";
import { drillCalled } from "./editions/formerNames.js";
import { say } from "./editions/say.js";
import type { Curriculum } from "./model.js";
import type { Problem, Result } from "./problem.js";

/**
 * The drill that a person names, by its name or by the name it had in an earlier edition.
 *
 * Problem: DRILL_UNKNOWN, at `where`; the remedy is the nearest name, when one is near.
 *
 * @example
 * findDrill(course, "half-baar"); // DRILL_UNKNOWN, remedy: write half-bar
 */
export function findDrill(curriculum: Curriculum, name: string, where: Problem["where"] = {}): Result<Drill> {
  const drill = drillCalled(curriculum, name);
  if (drill !== undefined) return success(drill);
  const names = curriculum.drills.map((each) => each.name);
  const nearest = nearestName(name, names) ?? renamedTo(name, names);
  const message = say("edition-problem.drill-unknown", { found: name, course: curriculum.name, drills: names });
  const remedy = nearest === undefined ? undefined : say("edition-problem.drill-unknown-remedy", { drill: nearest });
  return failure(problem("DRILL_UNKNOWN", message, where, remedy));
}
