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
    if (entry?.rung === from) move(ledger, entry, to);
  }
  for (const drill of event.reopened) {
    const entry = ledger.drills.get(drill);
    if (entry?.state !== "complete") continue;
    entry.takenFrom ??= { rung: entry.rung!, state: "complete" };
    entry.state = "open";
  }
  for (const drill of event.completeAgain ?? []) {
    const entry = ledger.drills.get(drill);
    if (entry?.state === "open" && entry.completed !== undefined) entry.state = "complete";
  }
  for (const entry of ledger.drills.values())
    if (entry.takenFrom?.rung === entry.rung && entry.takenFrom?.state === entry.state) entry.takenFrom = undefined;
  return undefined;
}

/** To another rung, remembering where the student was until something else happens to them; back there, the stay goes on with the takes it had. */
function move(ledger: Ledger, entry: DrillEntry, rung: string): void {
  const { state, takenFrom = { rung: entry.rung!, state: state === "complete" ? state : "open" } } = entry;
  if (takenFrom.rung === rung) {
    rungEntry(ledger, entry, rung);
    entry.rung = rung;
    entry.by = "edition changed";
  } else arrive(ledger, entry, { rung, by: "edition changed" });
  entry.state = state;
  entry.takenFrom = takenFrom;
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
    if (entry.rung !== early.rung && entry.takenFrom?.rung !== early.rung) target.from = target.takes.length;
  }
  ledger.drills.delete(from);
  ledger.drills.set(to, entry);
}
