import { failure, type Result } from "../../base/index.js";
import { serverProblem } from "../codes.js";
import { sayProblem } from "../say.js";

export function busy(): Result<never> {
  const message = sayProblem("server-problem.hearing-busy");
  return failure(serverProblem("HEARING_BUSY", message, {}, sayProblem("server-problem.hearing-busy-remedy")));
}

export function notHeard(): Result<never> {
  const message = sayProblem("server-problem.recording-not-heard");
  return failure(
    serverProblem("RECORDING_NOT_HEARD", message, {}, sayProblem("server-problem.recording-not-heard-remedy")),
  );
}
