import type { Credit, DrillStanding, LatestEvent, NotesLeftOut, RungStanding, Standing } from "../../schema/index.js";

/** Verdict of a take as one letter: `w` within, `b` beyond, `u` unclear. */
export type Outcome = "w" | "b" | "u";

/** A rung while events are being counted. */
export interface RungEntry {
  readonly rung: string;
  takes: string[];
  outcomes: Outcome[];
  leftOut: NotesLeftOut[];
  /** Number of takes before the current stay: index of its first take. */
  from: number;
  credit: Credit | undefined;
  /** The rung of the original standing, until its lists are copied. They are copied before the first write. */
  lent: RungStanding | undefined;
}

/** Of a take whose event does not say what was left out. */
const NOTHING_SAID: NotesLeftOut = [0, 0, 0, 0];

/** A drill while events are being counted. */
export interface DrillEntry {
  readonly drill: string;
  state: DrillStanding["state"];
  withdrawn: boolean;
  rung: string | undefined;
  by: DrillStanding["by"];
  /** The rung from which an edition moved the student. Any other move deletes it. */
  takenFrom: DrillStanding["takenFrom"];
  completed: DrillStanding["completed"];
  readonly rungs: Map<string, RungEntry>;
}

/** A standing that is changed in place, so that every event of a replay costs the same time. */
export interface MutableStanding {
  student: string | undefined;
  curriculum: string | undefined;
  edition: string;
  latest: LatestEvent | undefined;
  events: number;
  readonly drills: Map<string, DrillEntry>;
  /** Index of each take in the list of its rung. Takes of the original standing are entered when their rung is first written to. */
  readonly places: Map<string, number>;
}

/** A mutable copy of a standing; an empty one without it. The standing given is not changed. */
export function mutableStanding(standing?: Standing): MutableStanding {
  return {
    student: standing?.student,
    curriculum: standing?.curriculum,
    edition: standing?.edition ?? "",
    latest: standing?.latest,
    events: standing?.events ?? 0,
    drills: new Map(standing?.drills.map((drill): [string, DrillEntry] => [drill.drill, openDrill(drill)])),
    places: new Map(),
  };
}

function openDrill(drill: DrillStanding): DrillEntry {
  const rungs = drill.rungs.map((held): [string, RungEntry] => [
    held.rung,
    { rung: held.rung, takes: [], outcomes: [], leftOut: [], from: held.from, credit: held.credit, lent: held },
  ]);
  const { state, rung, by, takenFrom, completed } = drill;
  const withdrawn = drill.withdrawn === true;
  return { drill: drill.drill, state, withdrawn, rung, by, takenFrom, completed, rungs: new Map(rungs) };
}

/** The entry of a drill. A drill without an entry gets a new, closed one. */
export function drillEntry(standing: MutableStanding, drill: string): DrillEntry {
  let entry = standing.drills.get(drill);
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
    standing.drills.set(drill, entry);
  }
  return entry;
}

/** The entry of a rung, with lists that can be written to. */
export function rungEntry(standing: MutableStanding, drill: DrillEntry, rung: string): RungEntry {
  let entry = drill.rungs.get(rung);
  if (entry === undefined) {
    entry = { rung, takes: [], outcomes: [], leftOut: [], from: 0, credit: undefined, lent: undefined };
    drill.rungs.set(rung, entry);
  } else if (entry.lent !== undefined) {
    entry.takes = [...entry.lent.takes];
    entry.outcomes = [...entry.lent.outcomes] as Outcome[];
    entry.leftOut = entry.lent.takes.map((_, place) => entry!.lent!.leftOut?.[place] ?? NOTHING_SAID);
    entry.lent = undefined;
    entry.takes.forEach((take, place) => void standing.places.set(take, place));
  }
  return entry;
}

/** Adds a take to a rung. */
export function addTake(
  standing: MutableStanding,
  entry: RungEntry,
  played: { readonly take: string; readonly outcome: Outcome; readonly leftOut?: NotesLeftOut | undefined },
): void {
  standing.places.set(played.take, entry.takes.length);
  entry.takes.push(played.take);
  entry.outcomes.push(played.outcome);
  entry.leftOut.push(played.leftOut ?? NOTHING_SAID);
}

/** Puts the student on a rung. The takes played there before are no evidence for the next decision. */
export function moveToRung(
  standing: MutableStanding,
  entry: DrillEntry,
  { rung, by }: { readonly rung: string; readonly by: NonNullable<DrillEntry["by"]> },
): void {
  const target = rungEntry(standing, entry, rung);
  target.from = target.takes.length;
  entry.state = "open";
  entry.rung = rung;
  entry.by = by;
  entry.takenFrom = undefined;
}

/** Index of a take in the list of a rung; `undefined` when the take was not played on this rung. */
export function placeOf(standing: MutableStanding, entry: RungEntry, take: string): number | undefined {
  const place = standing.places.get(take);
  return place !== undefined && entry.takes[place] === take ? place : undefined;
}

/** The finished standing; `undefined` when nobody is enrolled. The mutable standing must not be written to afterwards. */
export function finishedStanding(standing: MutableStanding): Standing | undefined {
  const { student, curriculum, edition, latest, events } = standing;
  if (student === undefined || curriculum === undefined || latest === undefined) return undefined;
  return {
    version: 2,
    student,
    curriculum,
    edition,
    latest,
    events,
    drills: [...standing.drills.values()].map(closeDrill),
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
  const leftOut = entry.lent === undefined ? saidOf(entry.leftOut) : entry.lent.leftOut;
  return {
    rung: entry.rung,
    takes,
    outcomes,
    ...(leftOut === undefined ? {} : { leftOut }),
    from: entry.from,
    ...(entry.credit === undefined ? {} : { credit: entry.credit }),
  };
}

function saidOf(leftOut: readonly NotesLeftOut[]): readonly NotesLeftOut[] | undefined {
  return leftOut.some(([, asked]) => asked > 0) ? leftOut : undefined;
}
