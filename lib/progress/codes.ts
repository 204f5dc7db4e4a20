import { nearestName, type Place, type Problem, problemsOf } from "../base/index.js";
import { sayProblem } from "./say.js";

/** Problems with journals and with what is to be added to them. */
export const progressCodes = {
  JOURNAL_LINE_NOT_JSON: {
    severity: "error",
    means: "A line of a journal is not JSON, for instance because it was cut off.",
  },
  JOURNAL_GAP: {
    severity: "advice",
    means: "Turns are missing between two events: events were lost or have not arrived yet.",
  },
  EVENT_MALFORMED: {
    severity: "error",
    means: "An event lacks a field, has one too many, or a field holds the wrong thing.",
  },
  EVENT_VERSION_UNKNOWN: { severity: "error", means: "An event is of a version of the format that is not known here." },
  EVENT_KIND_UNKNOWN: { severity: "error", means: "An event is of a kind that is not known here." },
  EVENT_FOREIGN: { severity: "error", means: "An event belongs to another student or another curriculum." },
  EVENT_ID_REUSED: {
    severity: "error",
    means: "Two events have the same id and say different things; the first counts.",
  },
  EVENT_BEHIND: {
    severity: "advice",
    means:
      "An event belongs before the latest one already counted: it is known already, or the journal has to be read again.",
  },
  NOT_ENROLLED: { severity: "error", means: "An event comes before the student was enrolled." },
  EVIDENCE_UNKNOWN: {
    severity: "error",
    means: "A decision rests on a take that the journal does not have for that rung.",
  },
  EVIDENCE_CONTRADICTED: {
    severity: "error",
    means: "A decision rests on a take whose verdict was another, or lists takes twice or out of order.",
  },
  GATE_NOT_MET: { severity: "error", means: "The takes an advance lists do not meet the gate it names." },
  NEEDS_NOT_MET: { severity: "error", means: "A drill was opened although a drill it needs had not been completed." },
  DECISION_OVERTAKEN: {
    severity: "advice",
    means: "A decision has no effect, because another one made elsewhere at the same time came first.",
  },
  CURRICULUM_OTHER: { severity: "error", means: "The standing is in another curriculum than the one given." },
  FINDING_INCOMPLETE: {
    severity: "error",
    means: "A finding does not say, or not in a usable way, which take, drill or rung it is of.",
  },
  PROGRESS_DRILL_UNKNOWN: { severity: "error", means: "The curriculum has no drill of that name." },
} as const;

export const progressProblem: ReturnType<typeof problemsOf<typeof progressCodes>> = problemsOf(progressCodes);

/** The problem with the name of a drill that the course does not have; the nearest name is offered. */
export function drillUnknown(
  { name, drills }: { readonly name: string; readonly drills: readonly { readonly name: string }[] },
  found: string,
  where: Place = {},
): Problem {
  const names = drills.map((drill) => drill.name);
  const nearest = nearestName(found, names);
  const message = sayProblem("progress-problem.progress-drill-unknown", { course: name, drills: names, found });
  const remedy =
    nearest === undefined
      ? undefined
      : sayProblem("progress-problem.progress-drill-unknown-remedy", { drill: nearest });
  return progressProblem("PROGRESS_DRILL_UNKNOWN", message, where, remedy);
}
