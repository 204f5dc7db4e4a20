import type { Problem } from "../base/index.js";
import type { EditionChanged } from "../schema/index.js";
import { arrive, overtaken } from "./arrival.js";
import { addTake, type DrillEntry, type Ledger, rungEntry } from "./ledger.js";

/** Takes a student over into another edition. Nothing known of a rung or a drill is thrown away. */
export function recordEdition(ledger: Ledger, event: EditionChanged): Problem | undefined {
  if (event.from !== ledger.edition)
    return overtaken(event, `the edition in force was ${ledger.edition}, not ${event.from}`);
  ledger.edition = event.to;
  for (const { from, to } of event.renamed) rename(ledger, from, to);
  const withdrawn = new Set(event.withdrawn);
  for (const entry of ledger.drills.values()) entry.withdrawn = withdrawn.has(entry.drill);
  for (const { drill, from, to } of event.moved) {
    const entry = ledger.drills.get(drill);
    if (entry?.rung !== from) continue;
    const { state } = entry;
    arrive(ledger, entry, { rung: to, by: event.kind });
    entry.state = state;
  }
  for (const drill of event.reopened) {
    const entry = ledger.drills.get(drill);
    if (entry?.state === "complete") entry.state = "open";
  }
  return undefined;
}

/** Carries all that is known of a drill to its new name, and with it what was played under that name before the drill was open. */
function rename(ledger: Ledger, from: string, to: string): void {
  const old = ledger.drills.get(from);
  const present = ledger.drills.get(to);
  if (old === undefined || (present !== undefined && present.state !== "closed")) return;
  const entry: DrillEntry = { ...old, drill: to };
  for (const early of present?.rungs.values() ?? []) {
    const held = rungEntry(ledger, present!, early.rung);
    const target = rungEntry(ledger, entry, early.rung);
    held.takes.forEach((take, i) => void addTake(ledger, target, { take, outcome: held.outcomes[i]! }));
    if (entry.rung !== early.rung) target.from = target.takes.length;
  }
  ledger.drills.delete(from);
  ledger.drills.set(to, entry);
}
