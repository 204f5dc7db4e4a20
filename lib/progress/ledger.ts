import type { Credit, DrillStanding, LatestEvent, RungStanding, Standing } from "../schema/index.js";

/** One letter for each take: within, beyond, unclear. */
export type Outcome = "w" | "b" | "u";

/** What is known of a rung while events are being counted. */
export interface RungEntry {
  readonly rung: string;
  takes: string[];
  outcomes: Outcome[];
  /** Takes before the present stay. */
  from: number;
  credit: Credit | undefined;
  /** The lists still belong to the standing it was opened from. */
  lent: RungStanding | undefined;
}

/** What is known of a drill while events are being counted. */
export interface DrillEntry {
  readonly drill: string;
  state: DrillStanding["state"];
  withdrawn: boolean;
  rung: string | undefined;
  by: DrillStanding["by"];
  /** Where an edition took the student from, until something else moves the student. */
  takenFrom: DrillStanding["takenFrom"];
  completed: DrillStanding["completed"];
  readonly rungs: Map<string, RungEntry>;
}

/** A standing that is being written to: everything is changed in place, so that a replay costs the same for each event. */
export interface Ledger {
  student: string | undefined;
  curriculum: string | undefined;
  edition: string;
  latest: LatestEvent | undefined;
  events: number;
  readonly drills: Map<string, DrillEntry>;
  /** Place of each take in the list of its rung; those of a standing are entered when their rung is first written to. */
  readonly places: Map<string, number>;
}

/** A ledger with all a standing says; the standing is not changed by what is written to the ledger. */
export function openLedger(standing?: Standing): Ledger {
  if (standing === undefined)
    return {
      student: undefined,
      curriculum: undefined,
      edition: "",
      latest: undefined,
      events: 0,
      drills: new Map(),
      places: new Map(),
    };
  const { student, curriculum, edition, latest, events } = standing;
  const drills = new Map(standing.drills.map((drill) => [drill.drill, openDrill(drill)]));
  return { student, curriculum, edition, latest, events, drills, places: new Map() };
}

function openDrill(drill: DrillStanding): DrillEntry {
  const rungs = drill.rungs.map((held): [string, RungEntry] => [
    held.rung,
    { rung: held.rung, takes: [], outcomes: [], from: held.from, credit: held.credit, lent: held },
  ]);
  const { state, rung, by, takenFrom, completed } = drill;
  const withdrawn = drill.withdrawn === true;
  return { drill: drill.drill, state, withdrawn, rung, by, takenFrom, completed, rungs: new Map(rungs) };
}

/** The entry of a drill, opened when it is the first to be heard of it. */
export function drillEntry(ledger: Ledger, drill: string): DrillEntry {
  let entry = ledger.drills.get(drill);
  if (entry === undefined) {
    entry = {
      drill,
      state: "closed",
      withdrawn: false,
      rung: undefined,
      by: undefined,
      takenFrom: undefined,
      completed: undefined,
      rungs: new Map(),
    };
    ledger.drills.set(drill, entry);
  }
  return entry;
}

/** The entry of a rung, its lists ready to be written to. */
export function rungEntry(ledger: Ledger, drill: DrillEntry, rung: string): RungEntry {
  let entry = drill.rungs.get(rung);
  if (entry === undefined) {
    entry = { rung, takes: [], outcomes: [], from: 0, credit: undefined, lent: undefined };
    drill.rungs.set(rung, entry);
  } else if (entry.lent !== undefined) {
    entry.takes = [...entry.lent.takes];
    entry.outcomes = [...entry.lent.outcomes] as Outcome[];
    entry.lent = undefined;
    entry.takes.forEach((take, place) => void ledger.places.set(take, place));
  }
  return entry;
}

/** Adds a take to those of a rung. */
export function addTake(
  ledger: Ledger,
  entry: RungEntry,
  played: { readonly take: string; readonly outcome: Outcome },
): void {
  ledger.places.set(played.take, entry.takes.length);
  entry.takes.push(played.take);
  entry.outcomes.push(played.outcome);
}

/** The place of a take among those of a rung; `undefined` when it was not played to it. */
export function placeOf(ledger: Ledger, entry: RungEntry, take: string): number | undefined {
  const place = ledger.places.get(take);
  return place !== undefined && entry.takes[place] === take ? place : undefined;
}

/** The standing a ledger amounts to; `undefined` while nobody is enrolled. The ledger must not be written to afterwards. */
export function closeLedger(ledger: Ledger): Standing | undefined {
  const { student, curriculum, edition, latest, events } = ledger;
  if (student === undefined || curriculum === undefined || latest === undefined) return undefined;
  return {
    version: 1,
    student,
    curriculum,
    edition,
    latest,
    events,
    drills: [...ledger.drills.values()].map(closeDrill),
  };
}

function closeDrill(entry: DrillEntry): DrillStanding {
  return {
    drill: entry.drill,
    state: entry.state,
    ...(entry.withdrawn ? { withdrawn: true } : {}),
    ...(entry.rung === undefined ? {} : { rung: entry.rung }),
    ...(entry.by === undefined ? {} : { by: entry.by }),
    ...(entry.takenFrom === undefined ? {} : { takenFrom: entry.takenFrom }),
    ...(entry.completed === undefined ? {} : { completed: entry.completed }),
    rungs: [...entry.rungs.values()].map(closeRung),
  };
}

function closeRung(entry: RungEntry): RungStanding {
  const { takes, outcomes } = entry.lent ?? { takes: entry.takes, outcomes: entry.outcomes.join("") };
  return {
    rung: entry.rung,
    takes,
    outcomes,
    from: entry.from,
    ...(entry.credit === undefined ? {} : { credit: entry.credit }),
  };
}
