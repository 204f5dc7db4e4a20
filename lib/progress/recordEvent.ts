import type { Problem } from "../base/index.js";
import type { DrillOpened, JournalEvent, SetByTeacher, TakeAssessed, Verdict } from "../schema/index.js";
import { arrive, overtaken } from "./arrival.js";
import { progressProblem } from "./codes.js";
import { addTake, drillEntry, type Ledger, type Outcome, rungEntry } from "./ledger.js";
import { recordAdvance, recordEasing } from "./recordDecision.js";
import { recordEdition } from "./recordEdition.js";

/** Writes one event to the ledger; with a problem, which says why it has no effect, the ledger stays as it was. */
export function recordEvent(ledger: Ledger, event: JournalEvent): Problem | undefined {
  const problem = effect(ledger, event);
  if (problem !== undefined) return problem;
  ledger.events++;
  ledger.latest = { turn: event.turn, at: event.at, id: event.id };
  return undefined;
}

function effect(ledger: Ledger, event: JournalEvent): Problem | undefined {
  if (event.kind === "enrolled") {
    if (ledger.student !== undefined) return overtaken(event, "the student was enrolled already");
    ledger.student = event.student;
    ledger.curriculum = event.curriculum;
    ledger.edition = event.edition;
    return undefined;
  }
  switch (event.kind) {
    case "take assessed":
      return recordTake(ledger, event);
    case "advanced":
    case "drill completed":
      return recordAdvance(ledger, event);
    case "eased":
      return recordEasing(ledger, event);
    case "drill opened":
      return recordOpening(ledger, event);
    case "edition changed":
      return recordEdition(ledger, event);
    case "set by teacher":
      return recordPlacement(ledger, event);
  }
}

/** The letter of each verdict. */
export const OUTCOMES: Readonly<Record<Verdict, Outcome>> = { within: "w", beyond: "b", unclear: "u" };

function recordTake(ledger: Ledger, event: TakeAssessed): undefined {
  const entry = rungEntry(ledger, drillEntry(ledger, event.drill), event.rung);
  addTake(ledger, entry, { take: event.take, outcome: OUTCOMES[event.verdict] });
}

function recordOpening(ledger: Ledger, event: DrillOpened): Problem | undefined {
  const unmet = event.needs.filter((need) => ledger.drills.get(need)?.completed === undefined);
  if (unmet.length > 0) {
    const message = `event ${event.id} opens drill ${event.drill}, which needs ${unmet.join(", ")} completed before`;
    return progressProblem("NEEDS_NOT_MET", message);
  }
  const entry = drillEntry(ledger, event.drill);
  if (entry.state !== "closed") return overtaken(event, `drill ${event.drill} was open already`);
  arrive(ledger, entry, { rung: event.to, by: event.kind });
  return undefined;
}

function recordPlacement(ledger: Ledger, event: SetByTeacher): undefined {
  const entry = drillEntry(ledger, event.drill);
  arrive(ledger, entry, { rung: event.to, by: event.by ?? event.kind });
  // The teacher wants to hear it again, whatever was shown there before.
  rungEntry(ledger, entry, event.to).credit = undefined;
}
