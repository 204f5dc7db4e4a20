import { failure } from "../../base/index.js";
import { serverProblem } from "../codes.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";

/** A body of more bytes than are taken. */
export function bodyTooLarge(most: number): Result<never> {
  const message = sayProblem("server-problem.body-too-large", { most });
  return failure(serverProblem("BODY_TOO_LARGE", message, {}, sayProblem("server-problem.body-too-large-remedy")));
}
