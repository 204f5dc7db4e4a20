import type { DrillOpened, JournalEvent, SetByTeacher, TakeAssessed, Verdict } from "../../schema/index.js";
import { applyAdvance, applyGoingBack } from "./applyDecision.js";
import { applyEdition } from "./applyEdition.js";
import { type Complaint, complaint } from "./complaint.js";
import { overtaken } from "./event/problems.js";
import { addTake, drillEntry, type MutableStanding, moveToRung, type Outcome, rungEntry } from "./mutableStanding.js";

/** Applies one event to the standing. With a complaint the event has no effect and the standing stays as it was. */
export function applyEvent(standing: MutableStanding, event: JournalEvent): Complaint | undefined {
  const wrong = effect(standing, event);
  if (wrong !== undefined) return wrong;
  standing.events++;
  standing.latest = { turn: event.turn, at: event.at, id: event.id };
  return undefined;
}

function effect(standing: MutableStanding, event: JournalEvent): Complaint | undefined {
  if (event.kind === "enrolled") {
    if (standing.student !== undefined) return overtaken(event, "enrolled");
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
  const { drill, rung } = event;
  const entry = rungEntry(drillEntry(standing, drill), rung);
  addTake(standing, { drill, entry }, { take: event.take, outcome: OUTCOMES[event.verdict], leftOut: event.leftOut });
}

function applyOpening(standing: MutableStanding, event: DrillOpened): Complaint | undefined {
  const unmet = event.needs.filter((need) => standing.drills.get(need)?.completed === undefined);
  if (unmet.length > 0) {
    const what = { id: event.id, drill: event.drill, needs: unmet };
    return complaint("NEEDS_NOT_MET", "journal-problem.needs-not-met", what);
  }
  const entry = drillEntry(standing, event.drill);
  if (entry.state !== "closed") {
    const open = { id: event.id, drill: event.drill };
    return complaint("DECISION_OVERTAKEN", "journal-problem.overtaken-open", open);
  }
  moveToRung(entry, { rung: event.to, by: event.kind });
  return undefined;
}

function applyPlacement(standing: MutableStanding, event: SetByTeacher): undefined {
  const entry = drillEntry(standing, event.drill);
  moveToRung(entry, { rung: event.to, by: event.by ?? event.kind });
  // The teacher wants to hear the rung again, so earlier credit does not count.
  rungEntry(entry, event.to).credit = undefined;
}
