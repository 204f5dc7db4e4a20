import { type Place, type Problem, problemsOf } from "../base/index.js";
import { sayProblem } from "./say.js";

/** Problems with journals and with what is to be added to them. */
export const progressCodes = {
  JOURNAL_LINE_NOT_JSON: "error",
  JOURNAL_GAP: "advice",
  EVENT_MALFORMED: "error",
  EVENT_VERSION_UNKNOWN: "error",
  EVENT_KIND_UNKNOWN: "error",
  EVENT_FOREIGN: "error",
  EVENT_ID_REUSED: "error",
  TAKE_TOLD_TWICE: "advice",
  EVENT_BEHIND: "advice",
  NOT_ENROLLED: "error",
  EVIDENCE_UNKNOWN: "error",
  EVIDENCE_CONTRADICTED: "error",
  GATE_NOT_MET: "error",
  NEEDS_NOT_MET: "error",
  DECISION_OVERTAKEN: "advice",
  CURRICULUM_OTHER: "error",
  EDITION_BEHIND: "error",
  FINDING_INCOMPLETE: "error",
  PROGRESS_DRILL_UNKNOWN: "error",
} as const;

export const progressProblem: ReturnType<typeof problemsOf<typeof progressCodes>> = problemsOf(progressCodes);

/** The problem with the name of a drill that the course does not have; all it has are listed, and `nearest` is offered. */
export function drillUnknown(
  { name, drills }: { readonly name: string; readonly drills: readonly { readonly name: string }[] },
  found: string,
  { where = {}, nearest }: { readonly where?: Place; readonly nearest?: string | undefined },
): Problem<keyof typeof progressCodes> {
  const names = drills.map((drill) => drill.name);
  const message = sayProblem("progress-problem.progress-drill-unknown", { course: name, drills: names, found });
  const remedy =
    nearest === undefined
      ? undefined
      : sayProblem("progress-problem.progress-drill-unknown-remedy", { drill: nearest });
  return progressProblem("PROGRESS_DRILL_UNKNOWN", message, where, remedy);
}
