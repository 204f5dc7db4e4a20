import { failure, problemsIn, success } from "../base/index.js";
import { type Curriculum, findDrill } from "../curriculum/index.js";
import { type Drill, findMix, findRung, type Rung, rungCalled } from "../drill/index.js";
import type { Take } from "../schema/index.js";
import { codePointText } from "./codePointText.js";
import { practiceProblem } from "./codes.js";
import type { CourseInUse } from "./courseInUse.js";
import type { Problem, Result } from "./problem.js";
import { sayProblem } from "./say.js";

/** What a take was played to, and the edition that has it. */
export interface PlayedTo {
  readonly course: Curriculum;
  readonly drill: Drill;
  readonly rung: Rung;
}

/** A take that says everything it must say to be counted. */
export type NamedTake = Take & Required<Pick<Take, "id" | "drill" | "rung">>;

/**
 * The take itself, when it says its id, drill and rung (settings, not a number), as `submit` wants it. Problems: TAKE_NOT_NAMED, TAKE_RUNG_NOT_SAID.
 *
 * @example
 * const take = requireNames({ id: "evening-3", drill: "steady", rung: "tempo=84,variant=plain", onsets: [0.02] });
 */
export function requireNames(take: Take): Result<NamedTake> {
  const problems: Problem[] = [];
  const characters = [...(take.id ?? "")];
  const unseen = characters.findIndex((character) => /\p{Cc}/u.test(character));
  if (unseen >= 0) {
    const given = { place: unseen + 1, found: codePointText(characters[unseen]!) };
    const message = sayProblem("practice-problem.take-name-unseen", given);
    const remedy = sayProblem("practice-problem.take-not-named-remedy");
    problems.push(practiceProblem("TAKE_NOT_NAMED", message, { pointer: "/id", offset: unseen }, remedy));
  }
  if (take.id === undefined || take.id === "") {
    const message = sayProblem("practice-problem.take-not-named");
    const remedy = sayProblem("practice-problem.take-not-named-remedy");
    problems.push(practiceProblem("TAKE_NOT_NAMED", message, { pointer: "/id" }, remedy));
  }
  const remedy = sayProblem("practice-problem.take-rung-not-said-remedy");
  for (const key of ["drill", "rung"] as const) {
    const said = take[key]?.trim();
    if (said && !(key === "rung" && /^\d+$/.test(said))) continue;
    const message = said
      ? sayProblem("practice-problem.take-rung-numbered", { number: said })
      : sayProblem("practice-problem.take-rung-not-said", { missing: key });
    problems.push(practiceProblem("TAKE_RUNG_NOT_SAID", message, { pointer: `/${key}` }, remedy));
  }
  return problems.length > 0 ? failure(...problems) : success(take as NamedTake);
}

/**
 * What a take was played to, in the edition in use or, when that does not have it, in the one before. Problems, with pointers into the take:
 * DRILL_UNKNOWN, and those of `findRung` and `findMix`.
 *
 * @example
 * const take = { id: "evening-3", drill: "steady", rung: "tempo=84,variant=plain", onsets: [] };
 * const played = playedTo(take, { course });
 */
export function playedTo(take: NamedTake, { course, before }: CourseInUse): Result<PlayedTo> {
  const found = [course, ...(before === undefined ? [] : [before])].map((each) => inEdition(take, each));
  return found.find(({ ok }) => ok) ?? found[0]!;
}

function inEdition(take: NamedTake, course: Curriculum): Result<PlayedTo> {
  const drill = findDrill(course, take.drill, { pointer: "/drill" });
  if (!drill.ok) return drill;
  const exact = rungCalled(drill.value, take.rung);
  const rung = exact === undefined ? findRung(drill.value, take.rung) : success(exact);
  const mix = take.mix === undefined ? undefined : findMix(drill.value, take.mix);
  const problems = [...problemsIn(rung, "/rung"), ...(mix === undefined ? [] : problemsIn(mix, "/mix"))];
  return rung.ok && mix?.ok !== false
    ? success({ course, drill: drill.value, rung: rung.value })
    : failure(...problems);
}
