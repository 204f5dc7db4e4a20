import type { Advanced, DrillCompleted, GoneBack, JournalEvent } from "../../schema/index.js";
import { gateMet } from "../gate/gate.js";
import { type Complaint, complaint } from "./complaint.js";
import { leftRung, overtaken } from "./event/problems.js";
import {
  type DrillEntry,
  type MutableStanding,
  moveToRung,
  type Outcome,
  outcomeAt,
  placeOf,
  type RungEntry,
  rungsOf,
  takesOn,
} from "./mutableStanding.js";

/** Applies an advance or a completion. The listed takes must prove it, and no other decision may have overtaken it. */
export function applyAdvance(standing: MutableStanding, event: Advanced | DrillCompleted): Complaint | undefined {
  const drill = standing.drills.get(event.drill);
  const known = drill && rungsOf(drill).get(event.from);
  const clean = placesOf(standing, known, { event, takes: event.evidence, outcome: "w" });
  if (!Array.isArray(clean)) return clean as Complaint;
  const beyond = placesOf(standing, known, { event, takes: event.against, outcome: "b" });
  if (!Array.isArray(beyond)) return beyond as Complaint;
  const [entry, rung] = [drill!, known!];
  if (event.credit === undefined && !gateMet(event.gate, clean.length, beyond.length)) {
    const listed = { id: event.id, clean: clean.length, beyond: beyond.length };
    return complaint("GATE_NOT_MET", "journal-problem.gate-not-met", listed);
  }
  const missed = missedBy(entry, rung, { event, clean, beyond });
  if (missed !== undefined) return keepCompletion(standing, { entry, rung, event, clean }) ? undefined : missed;
  if (event.credit === undefined) rung.credit = { event: event.id, evidence: event.evidence };
  rung.from = takesOn(rung);
  if (event.kind === "advanced") moveToRung(entry, { rung: event.to, by: event.kind });
  else {
    entry.state = "complete";
    entry.completed = { event: event.id, rung: event.from, edition: standing.edition };
  }
  return undefined;
}

/** The decision of another device that an advance or a completion comes too late for; `undefined` when it is in time. */
function missedBy(
  entry: DrillEntry,
  rung: RungEntry,
  {
    event,
    clean,
    beyond,
  }: {
    readonly event: Advanced | DrillCompleted;
    readonly clean: readonly number[];
    readonly beyond: readonly number[];
  },
): Complaint | undefined {
  if (entry.state !== "open" || entry.rung !== event.from) return leftRung(event, event.from);
  const fresh = clean.filter((place) => place >= rung.from).length;
  if (event.credit === undefined)
    return fresh < clean.length || beyond.some((place) => place < rung.from) ? overtaken(event, "takes") : undefined;
  return rung.credit?.event !== event.credit || fresh === 0 ? overtaken(event, "credit") : undefined;
}

/** Moves of a student that no take decided: a completion that comes too late does not undo them. */
const DELIBERATE: readonly DrillEntry["by"][] = ["set by teacher", "placement test", "edition changed"];

/**
 * Keeps a completion that another device overtook, because its own takes prove it: the drill counts as completed, and is complete, unless a teacher, a placement
 * or an edition has put the student elsewhere. Gives whether there was anything to keep.
 */
function keepCompletion(
  standing: MutableStanding,
  {
    entry,
    rung,
    event,
    clean,
  }: {
    readonly entry: DrillEntry;
    readonly rung: RungEntry;
    readonly event: Advanced | DrillCompleted;
    readonly clean: readonly number[];
  },
): boolean {
  if (event.kind !== "drill completed" || entry.state !== "open" || entry.completed !== undefined) return false;
  // The last take of a completion by credit was added to the takes that met the gate.
  if (event.credit !== undefined && !gateMet(event.gate, clean.length - 1, 0)) return false;
  entry.completed = { event: event.id, rung: event.from, edition: standing.edition };
  if (DELIBERATE.includes(entry.by)) return true;
  rung.credit = { event: event.id, evidence: event.evidence };
  rung.from = takesOn(rung);
  entry.state = "complete";
  entry.rung = event.from;
  entry.takenFrom = undefined;
  return true;
}

/** Applies a step back. The listed takes must be beyond tolerance, and no other decision may have overtaken it. */
export function applyGoingBack(standing: MutableStanding, event: GoneBack): Complaint | undefined {
  const drill = standing.drills.get(event.drill);
  const known = drill && rungsOf(drill).get(event.from);
  const beyond = placesOf(standing, known, { event, takes: event.evidence, outcome: "b" });
  if (!Array.isArray(beyond)) return beyond as Complaint;
  if (beyond.length < event.after) {
    const listed = { id: event.id, after: event.after, found: beyond.length };
    return complaint("EVIDENCE_CONTRADICTED", "journal-problem.evidence-too-little", listed);
  }
  const [entry, rung] = [drill!, known!];
  if (entry.state !== "open" || entry.rung !== event.from) return leftRung(event, event.from);
  if (beyond.some((place) => place < rung.from)) return overtaken(event, "takes");
  rung.from = takesOn(rung);
  for (const lapsed of event.lapsed) {
    const lower = rungsOf(entry).get(lapsed);
    if (lower !== undefined) lower.credit = undefined;
  }
  moveToRung(entry, { rung: event.to, by: event.kind });
  return undefined;
}

/**
 * Indices of the listed takes in the list of a rung, or what is wrong with them. The takes must be different, in order, and have the given
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
): readonly number[] | Complaint {
  const places: number[] = [];
  for (const take of takes) {
    const place = rung && placeOf(standing, rung, take);
    if (rung === undefined || place === undefined)
      return complaint("EVIDENCE_UNKNOWN", "journal-problem.evidence-unknown", { id: event.id, take });
    if (outcomeAt(rung, place) !== outcome || place <= (places.at(-1) ?? -1)) {
      const wanted = outcome === "w" ? "within" : "beyond";
      return complaint("EVIDENCE_CONTRADICTED", "journal-problem.evidence-contradicted", {
        id: event.id,
        take,
        wanted,
      });
    }
    places.push(place);
  }
  return places;
}
