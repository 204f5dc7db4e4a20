import { type Problem, problemsOf } from "../../base/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** Why a port of this machine could not be listened on, from the error the system gave; `undefined` when the error is of something else. */
export function portProblem(error: unknown): Problem | undefined {
  if (!(error instanceof Error) || !("syscall" in error) || error.syscall !== "listen") return undefined;
  const { code = "", port = 0 } = error as { readonly code?: string; readonly port?: number };
  const why = code === "EADDRINUSE" ? "taken" : code === "EACCES" ? "kept" : "other";
  const message = sayProblem("cli-problem.port-not-opened", { port: String(port), why, error: code });
  return problem("PORT_NOT_OPENED", message, {}, sayProblem("cli-problem.port-not-opened-remedy"));
}
