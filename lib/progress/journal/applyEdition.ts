import type { EditionChanged } from "../../schema/index.js";
import { notePlace } from "../takePlaces.js";
import { type Complaint, complaint } from "./complaint.js";
import {
  addTake,
  closeDrill,
  type DrillEntry,
  type MutableStanding,
  moveToRung,
  type Outcome,
  placesIn,
  rungEntry,
  rungsOf,
  takeAt,
  takesOn,
} from "./mutableStanding.js";

/** Moves a student into another edition. Takes and credit of every rung and drill are kept. */
export function applyEdition(standing: MutableStanding, event: EditionChanged): Complaint | undefined {
  if (event.from !== standing.edition) {
    const editions = { id: event.id, edition: standing.edition, from: event.from };
    return complaint("DECISION_OVERTAKEN", "journal-problem.overtaken-edition", editions);
  }
  standing.edition = event.to;
  for (const { from, to } of event.renamed) rename(standing, from, to);
  const withdrawn = new Set(event.withdrawn);
  for (const entry of standing.drills.values()) entry.withdrawn = withdrawn.has(entry.drill);
  for (const { drill, from, to } of event.moved) {
    const entry = standing.drills.get(drill);
    if (entry?.rung === from) move(entry, to);
  }
  for (const drill of event.reopened) {
    const entry = standing.drills.get(drill);
    if (entry?.state !== "complete") continue;
    entry.takenFrom ??= { rung: entry.rung!, state: "complete" };
    entry.state = "open";
  }
  for (const drill of event.completeAgain ?? []) {
    const entry = standing.drills.get(drill);
    if (entry?.state === "open" && entry.completed !== undefined) entry.state = "complete";
  }
  for (const entry of standing.drills.values())
    if (entry.takenFrom?.rung === entry.rung && entry.takenFrom?.state === entry.state) entry.takenFrom = undefined;
  return undefined;
}

/**
 * Moves the student to another rung and remembers the rung before in `takenFrom`. On a move back to that rung, the stay continues with its
 * earlier takes.
 */
function move(entry: DrillEntry, rung: string): void {
  const { state, takenFrom = { rung: entry.rung!, state: state === "complete" ? state : "open" } } = entry;
  if (takenFrom.rung === rung) {
    rungEntry(entry, rung);
    entry.rung = rung;
    entry.by = "edition changed";
  } else moveToRung(entry, { rung, by: "edition changed" });
  entry.state = state;
  entry.takenFrom = takenFrom;
}

/** Renames a drill. Takes that were played under the new name while the drill was closed are added to it. */
function rename(standing: MutableStanding, from: string, to: string): void {
  const old = standing.drills.get(from);
  const present = standing.drills.get(to);
  if (old === undefined || (present !== undefined && present.state !== "closed")) return;
  const entry: DrillEntry = { ...old, drill: to };
  for (const early of present === undefined ? [] : closeDrill(present).rungs) {
    const target = rungEntry(entry, early.rung);
    early.takes.forEach((take, i) => {
      const outcome = early.outcomes[i] as Outcome;
      addTake(standing, { drill: to, entry: target }, { take, outcome, leftOut: early.leftOut?.[i] });
    });
    if (entry.rung !== early.rung && entry.takenFrom?.rung !== early.rung) target.from = takesOn(target);
  }
  standing.drills.delete(from);
  standing.drills.set(to, entry);
  for (const held of rungsOf(entry).values())
    for (let place = 0; place < takesOn(held); place++)
      notePlace(placesIn(standing), takeAt(held, place)!, { drill: to, rung: held.rung, place });
}
