import { failure, success } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { type Rung, scoreOf } from "../drill/index.js";
import { type ChangeOptions, changeEdition, editionBehind } from "../progress/index.js";
import type { Score, Standing, Take } from "../schema/index.js";
import type { Result } from "./problem.js";

/** The course that students go on with. */
export interface CourseInUse {
  readonly course: Curriculum;
  /**
   * The edition of the student's standing when it is another one, for example `keptCourse` of it. It gives the order of its rungs, the former names of its
   * drills, and the scores of takes that were played before the student was taken over. Without it less is found again (see `changeEdition`).
   */
  readonly before?: Curriculum;
}

/**
 * The course by which a student goes on: the one in use or, where the student is in a later edition already, that one when it is given as `before`. A program that
 * was started before a new edition so moves nobody back; only `takeOver` does, as it is asked to. Editions follow each other by `compareEditionNumbers`.
 *
 * Problem: EDITION_BEHIND, when the later edition is not given; nothing is lost, and what was asked can be asked again with it.
 *
 * @example
 * const use = useFor(standing, { course: next, before: course });
 */
export function useFor(standing: Standing, use: CourseInUse): Result<CourseInUse> {
  const { course, before } = use;
  const behind = editionBehind(course, standing);
  if (behind.length === 0) return success(use);
  return before?.edition === standing.edition ? success({ course: before, before: course }) : failure(...behind);
}

/** The options of going over to the edition in use: `before` only when it is the edition of the standing. */
export function changeOptions(standing: Standing, { before }: CourseInUse, at: string): ChangeOptions {
  return before?.edition === standing.edition ? { at, before } : { at };
}

/** A standing as it would be in the edition in use; nothing is written. */
export function standingInUse(standing: Standing, use: CourseInUse): Standing {
  return changeEdition(use.course, standing, changeOptions(standing, use, standing.latest.at)).standing;
}

/**
 * The score of a rung as a course has it, with the names of both, in the mix and with the draw of a take.
 *
 * @example
 * scoreFor(course, rung, { mix: "play" }).edition === course.edition // true
 */
export function scoreFor(course: Curriculum, rung: Rung, { mix, draw }: Pick<Take, "mix" | "draw"> = {}): Score {
  return { curriculum: course.name, edition: course.edition, ...scoreOf(rung, mix, draw) };
}
