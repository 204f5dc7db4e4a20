import { type Failure, failure, success } from "../../base/index.js";
import type { Person } from "../../store/index.js";
import { serverProblem } from "../codes.js";
import type { School } from "../model.js";
import type { Operation } from "../operations/model.js";
import type { Result, ServerCode } from "../problem.js";
import { sayProblem } from "../say.js";

/**
 * Whether somebody may ask for an operation on what its path names: a role that may, not away, and of students themselves or a teacher of theirs in that
 * course. What they may not see is answered as what is not there. Problems: ROLE_REFUSED, STUDENT_PAUSED, NOT_THERE.
 */
export async function mayAsk(
  { register }: School,
  person: Person,
  { who, whilePaused }: Operation,
  parameters: Readonly<Record<string, string>>,
): Promise<Result<void>> {
  if (who !== "anyone" && !who.includes(person.role)) {
    const message = sayProblem("server-problem.role-refused", { role: person.role });
    return failure(serverProblem("ROLE_REFUSED", message, {}, sayProblem("server-problem.role-refused-remedy")));
  }
  if (person.paused !== undefined && !whilePaused) {
    const message = sayProblem("server-problem.student-paused");
    return failure(serverProblem("STUDENT_PAUSED", message, {}, sayProblem("server-problem.student-paused-remedy")));
  }
  const { student, course, class: className } = parameters;
  if (student === undefined && className === undefined) return success(undefined);
  const own = await register.classesOf(person.name);
  if (className !== undefined && !own.some(({ name }) => name === className)) return notThere();
  if (student === undefined || (person.role === "student" && student === person.name)) return success(undefined);
  if (person.role === "student") return notThere();
  const asked = await register.person(student);
  const theirs = asked?.role === "student" ? await register.classesOf(student) : [];
  const shared = theirs.filter(({ name }) => own.some((each) => each.name === name));
  const isShared =
    className === undefined
      ? shared.some(({ curriculum }) => course === undefined || curriculum === course)
      : shared.some(({ name }) => name === className);
  return isShared ? success(undefined) : notThere();
}

/** One answer for what is not there and for what is not to be seen, so that nobody can find out names. */
export function notThere(): Failure<ServerCode> {
  const message = sayProblem("server-problem.not-there");
  return failure(serverProblem("NOT_THERE", message, {}, sayProblem("server-problem.not-there-remedy")));
}
