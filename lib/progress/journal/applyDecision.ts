import type { Problem } from "../../base/index.js";
import type { Advanced, DrillCompleted, GoneBack, JournalEvent } from "../../schema/index.js";
import { progressProblem } from "../codes.js";
import { gateMet } from "../gate/gate.js";
import { decisionOvertaken } from "./eventProblems.js";
import {
  type MutableStanding,
  moveToRung,
  type Outcome,
  placeOf,
  type RungEntry,
  rungEntry,
} from "./mutableStanding.js";

/** Applies an advance or a completion. The listed takes must prove it, and no other decision may have overtaken it. */
export function applyAdvance(standing: MutableStanding, event: Advanced | DrillCompleted): Problem | undefined {
  const drill = standing.drills.get(event.drill);
  const known = drill?.rungs.has(event.from) ? rungEntry(standing, drill, event.from) : undefined;
  const clean = placesOf(standing, known, { event, takes: event.evidence, outcome: "w" });
  if (!Array.isArray(clean)) return clean as Problem;
  const beyond = placesOf(standing, known, { event, takes: event.against, outcome: "b" });
  if (!Array.isArray(beyond)) return beyond as Problem;
  const [entry, rung] = [drill!, known!];
  if (event.credit === undefined && !gateMet(event.gate, clean.length, beyond.length)) {
    const message = `event ${event.id} lists ${clean.length} clean takes and ${beyond.length} beyond tolerance, which do not meet its gate`;
    return progressProblem("GATE_NOT_MET", message);
  }
  if (entry.state !== "open" || entry.rung !== event.from)
    return decisionOvertaken(event, `the student was not on ${event.from}`);
  const fresh = clean.filter((place) => place >= rung.from).length;
  if (event.credit === undefined) {
    if (fresh < clean.length || beyond.some((place) => place < rung.from))
      return decisionOvertaken(event, "it rests on takes from before the student came to the rung");
    rung.credit = { event: event.id, evidence: event.evidence };
  } else if (rung.credit?.event !== event.credit || fresh === 0) {
    return decisionOvertaken(event, "the credit it rests on had lapsed, or no take was added to it");
  }
  rung.from = rung.takes.length;
  if (event.kind === "advanced") moveToRung(standing, entry, { rung: event.to, by: event.kind });
  else {
    entry.state = "complete";
    entry.completed = { event: event.id, rung: event.from, edition: standing.edition };
  }
  return undefined;
}

/** Applies a step back. The listed takes must be beyond tolerance, and no other decision may have overtaken it. */
export function applyGoingBack(standing: MutableStanding, event: GoneBack): Problem | undefined {
  const drill = standing.drills.get(event.drill);
  const known = drill?.rungs.has(event.from) ? rungEntry(standing, drill, event.from) : undefined;
  const beyond = placesOf(standing, known, { event, takes: event.evidence, outcome: "b" });
  if (!Array.isArray(beyond)) return beyond as Problem;
  if (beyond.length < event.after) {
    const message = `event ${event.id} needs ${event.after} takes beyond tolerance and lists ${beyond.length}`;
    return progressProblem("EVIDENCE_CONTRADICTED", message);
  }
  const [entry, rung] = [drill!, known!];
  if (entry.state !== "open" || entry.rung !== event.from)
    return decisionOvertaken(event, `the student was not on ${event.from}`);
  if (beyond.some((place) => place < rung.from))
    return decisionOvertaken(event, "it rests on takes from before the student came to the rung");
  rung.from = rung.takes.length;
  for (const lapsed of event.lapsed) {
    const lower = entry.rungs.get(lapsed);
    if (lower !== undefined) lower.credit = undefined;
  }
  moveToRung(standing, entry, { rung: event.to, by: event.kind });
  return undefined;
}

/**
 * Indices of the listed takes in the list of a rung, or the problem with them. The takes must be different, in order, and have the given
 * outcome.
 */
function placesOf(
  standing: MutableStanding,
  rung: RungEntry | undefined,
  {
    event,
    takes,
    outcome,
  }: { readonly event: JournalEvent; readonly takes: readonly string[]; readonly outcome: Outcome },
): readonly number[] | Problem {
  const places: number[] = [];
  for (const take of takes) {
    const place = rung && placeOf(standing, rung, take);
    if (rung === undefined || place === undefined) {
      const message = `event ${event.id} rests on take ${take}, which the journal does not have before it for that rung`;
      return progressProblem("EVIDENCE_UNKNOWN", message);
    }
    if (rung.outcomes[place] !== outcome || place <= (places.at(-1) ?? -1)) {
      const wanted = outcome === "w" ? "within" : "beyond";
      const message = `event ${event.id} lists take ${take}, which must be ${wanted} tolerance, listed once and in order`;
      return progressProblem("EVIDENCE_CONTRADICTED", message);
    }
    places.push(place);
  }
  return places;
}
