import type { Problem } from "../../base/index.js";
import type { DrillOpened, JournalEvent, SetByTeacher, TakeAssessed, Verdict } from "../../schema/index.js";
import { progressProblem } from "../codes.js";
import { applyAdvance, applyGoingBack } from "./applyDecision.js";
import { applyEdition } from "./applyEdition.js";
import { decisionOvertaken } from "./eventProblems.js";
import { addTake, drillEntry, type MutableStanding, moveToRung, type Outcome, rungEntry } from "./mutableStanding.js";

/** Applies one event to the standing. With a problem the event has no effect and the standing stays as it was. */
export function applyEvent(standing: MutableStanding, event: JournalEvent): Problem | undefined {
  const problem = effect(standing, event);
  if (problem !== undefined) return problem;
  standing.events++;
  standing.latest = { turn: event.turn, at: event.at, id: event.id };
  return undefined;
}

function effect(standing: MutableStanding, event: JournalEvent): Problem | undefined {
  if (event.kind === "enrolled") {
    if (standing.student !== undefined) return decisionOvertaken(event, "the student was enrolled already");
    standing.student = event.student;
    standing.curriculum = event.curriculum;
    standing.edition = event.edition;
    return undefined;
  }
  switch (event.kind) {
    case "take assessed":
      return applyTake(standing, event);
    case "advanced":
    case "drill completed":
      return applyAdvance(standing, event);
    case "gone back":
      return applyGoingBack(standing, event);
    case "drill opened":
      return applyOpening(standing, event);
    case "edition changed":
      return applyEdition(standing, event);
    case "set by teacher":
      return applyPlacement(standing, event);
  }
}

/** Verdict -> its letter in a standing. */
export const OUTCOMES: Readonly<Record<Verdict, Outcome>> = { within: "w", beyond: "b", unclear: "u" };

function applyTake(standing: MutableStanding, event: TakeAssessed): undefined {
  const entry = rungEntry(standing, drillEntry(standing, event.drill), event.rung);
  addTake(standing, entry, { take: event.take, outcome: OUTCOMES[event.verdict], leftOut: event.leftOut });
}

function applyOpening(standing: MutableStanding, event: DrillOpened): Problem | undefined {
  const unmet = event.needs.filter((need) => standing.drills.get(need)?.completed === undefined);
  if (unmet.length > 0) {
    const message = `event ${event.id} opens drill ${event.drill}, which needs ${unmet.join(", ")} completed before`;
    return progressProblem("NEEDS_NOT_MET", message);
  }
  const entry = drillEntry(standing, event.drill);
  if (entry.state !== "closed") return decisionOvertaken(event, `drill ${event.drill} was open already`);
  moveToRung(standing, entry, { rung: event.to, by: event.kind });
  return undefined;
}

function applyPlacement(standing: MutableStanding, event: SetByTeacher): undefined {
  const entry = drillEntry(standing, event.drill);
  moveToRung(standing, entry, { rung: event.to, by: event.by ?? event.kind });
  // The teacher wants to hear the rung again, so earlier credit does not count.
  rungEntry(standing, entry, event.to).credit = undefined;
}
