import type { Problem } from "../base/index.js";
import type { JournalEvent } from "../schema/index.js";
import { progressProblem } from "./codes.js";
import { type DrillEntry, type Ledger, rungEntry } from "./ledger.js";

/** Puts the student on a rung: what was played there before is no evidence for the next decision. */
export function arrive(
  ledger: Ledger,
  entry: DrillEntry,
  { rung, by }: { readonly rung: string; readonly by: NonNullable<DrillEntry["by"]> },
): void {
  const target = rungEntry(ledger, entry, rung);
  target.from = target.takes.length;
  entry.state = "open";
  entry.rung = rung;
  entry.by = by;
  entry.takenFrom = undefined;
}

/** A decision made elsewhere came first: nothing is wrong, and nothing happens. */
export function overtaken(event: JournalEvent, because: string): Problem {
  return progressProblem("DECISION_OVERTAKEN", `event ${event.id} has no effect: ${because}`);
}
