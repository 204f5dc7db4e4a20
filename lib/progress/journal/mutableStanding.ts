import type { Credit, DrillStanding, LatestEvent, NotesLeftOut, RungStanding, Standing } from "../../schema/index.js";
import { notePlace, placesHeld, type TakePlaces, takePlaces, withPlaces } from "../takePlaces.js";

/** Verdict of a take as one letter: `w` within, `b` beyond, `u` unclear. */
export type Outcome = "w" | "b" | "u";

/** A rung while events are being counted: what it had before, and what is added. */
export interface RungEntry {
  readonly rung: string;
  readonly lent: RungStanding | undefined;
  readonly takes: string[];
  readonly outcomes: Outcome[];
  readonly leftOut: NotesLeftOut[];
  /** Number of takes before the current stay: index of its first take. */
  from: number;
  credit: Credit | undefined;
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
  /** The drill of the original standing. Its rungs are not looked at before they are asked for (`rungsOf`). */
  readonly lent: DrillStanding | undefined;
  rungs: Map<string, RungEntry> | undefined;
}

/** A standing that is changed in place, so that every event costs the same time, whatever was played before. */
export interface MutableStanding {
  student: string | undefined;
  curriculum: string | undefined;
  edition: string;
  latest: LatestEvent | undefined;
  events: number;
  readonly drills: Map<string, DrillEntry>;
  readonly after: Standing | undefined;
  /** Where each take is, once that was asked (`placesIn`). */
  places: TakePlaces | undefined;
}

/** A mutable copy of a standing; an empty one without it. The standing given is not changed. */
export function mutableStanding(standing?: Standing): MutableStanding {
  return {
    student: standing?.student,
    curriculum: standing?.curriculum,
    edition: standing?.edition ?? "",
    latest: standing?.latest,
    events: standing?.events ?? 0,
    drills: new Map(
      standing?.drills.map((drill): [string, DrillEntry] => [drill.drill, openDrill(drill.drill, drill)]),
    ),
    after: standing,
    places: placesHeld(standing),
  };
}

/** Where each take is. */
export function placesIn(standing: MutableStanding): TakePlaces {
  standing.places ??= standing.after === undefined ? new Map() : takePlaces(standing.after);
  return standing.places;
}

function openDrill(drill: string, lent?: DrillStanding): DrillEntry {
  return {
    drill,
    state: lent?.state ?? "closed",
    withdrawn: lent?.withdrawn === true,
    rung: lent?.rung,
    by: lent?.by,
    takenFrom: lent?.takenFrom,
    completed: lent?.completed,
    lent,
    rungs: undefined,
  };
}

/** The entry of a drill. A drill without an entry gets a new, closed one. */
export function drillEntry(standing: MutableStanding, drill: string): DrillEntry {
  const entry = standing.drills.get(drill) ?? openDrill(drill);
  standing.drills.set(drill, entry);
  return entry;
}

/** The rungs of a drill. */
export function rungsOf(entry: DrillEntry): Map<string, RungEntry> {
  entry.rungs ??= new Map(entry.lent?.rungs.map((lent) => [lent.rung, openRung(lent.rung, lent)]));
  return entry.rungs;
}

function openRung(rung: string, lent?: RungStanding): RungEntry {
  return { rung, lent, takes: [], outcomes: [], leftOut: [], from: lent?.from ?? 0, credit: lent?.credit };
}

/** The entry of a rung. A rung without an entry gets a new one. */
export function rungEntry(drill: DrillEntry, rung: string): RungEntry {
  const rungs = rungsOf(drill);
  const entry = rungs.get(rung) ?? openRung(rung);
  rungs.set(rung, entry);
  return entry;
}

/** Number of takes on a rung. */
export function takesOn({ lent, takes }: RungEntry): number {
  return (lent?.takes.length ?? 0) + takes.length;
}

/** The take at a place in the list of a rung. */
export function takeAt({ lent, takes }: RungEntry, place: number): string | undefined {
  const before = lent?.takes.length ?? 0;
  return place < before ? lent!.takes[place] : takes[place - before];
}

/** The outcome of that take. */
export function outcomeAt({ lent, outcomes }: RungEntry, place: number): string | undefined {
  const before = lent?.outcomes ?? "";
  return before[place] ?? outcomes[place - before.length];
}

/** Adds a take to a rung of a drill. */
export function addTake(
  standing: MutableStanding,
  { drill, entry }: { readonly drill: string; readonly entry: RungEntry },
  played: { readonly take: string; readonly outcome: Outcome; readonly leftOut?: NotesLeftOut | undefined },
): void {
  notePlace(placesIn(standing), played.take, { drill, rung: entry.rung, place: takesOn(entry) });
  entry.takes.push(played.take);
  entry.outcomes.push(played.outcome);
  entry.leftOut.push(played.leftOut ?? NOTHING_SAID);
}

/** Puts the student on a rung. The takes played there before are no evidence for the next decision. */
export function moveToRung(
  entry: DrillEntry,
  { rung, by }: { readonly rung: string; readonly by: NonNullable<DrillEntry["by"]> },
): void {
  const target = rungEntry(entry, rung);
  target.from = takesOn(target);
  entry.state = "open";
  entry.rung = rung;
  entry.by = by;
  entry.takenFrom = undefined;
}

/** Index of a take in the list of a rung; `undefined` when the take was not played on this rung. */
export function placeOf(standing: MutableStanding, entry: RungEntry, take: string): number | undefined {
  return placesIn(standing)
    .get(take)
    ?.find(({ rung, place }) => rung === entry.rung && takeAt(entry, place) === take)?.place;
}

/** The finished standing, with what was not changed as it was; `undefined` when nobody is enrolled. The mutable standing must not be written to afterwards. */
export function finishedStanding(standing: MutableStanding): Standing | undefined {
  const { student, curriculum, edition, latest, events } = standing;
  if (student === undefined || curriculum === undefined || latest === undefined) return undefined;
  const drills = [...standing.drills.values()].map(closeDrill);
  return withPlaces({ version: 2, student, curriculum, edition, latest, events, drills }, standing.places);
}

/** What a drill is besides its rungs, and whether it is withdrawn. */
const HEAD = ["drill", "state", "rung", "by", "takenFrom", "completed"] as const;

export function closeDrill(entry: DrillEntry): DrillStanding {
  const { drill, state, withdrawn, rung, by, takenFrom, completed, lent } = entry;
  const isSame = HEAD.every((key) => lent?.[key] === entry[key]) && withdrawn === (lent?.withdrawn === true);
  if (entry.rungs === undefined && isSame) return lent!;
  const rungs = [...rungsOf(entry).values()].map(closeRung);
  if (isSame && rungs.length === lent!.rungs.length && rungs.every((rung, i) => rung === lent!.rungs[i])) return lent!;
  return said<DrillStanding>({ drill, state, withdrawn, rung, by, takenFrom, completed, rungs });
}

/** An object without what is not said: undefined, and not withdrawn. */
function said<T>(fields: { readonly [Key in keyof T]: T[Key] | undefined | false }): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined && value !== false)) as T;
}

function closeRung({ rung, lent, takes, outcomes, leftOut, from, credit }: RungEntry): RungStanding {
  if (lent !== undefined && takes.length === 0 && from === lent.from && credit === lent.credit) return lent;
  return said<RungStanding>({
    rung,
    takes: lent === undefined ? takes : takes.length === 0 ? lent.takes : lent.takes.concat(takes),
    outcomes: (lent?.outcomes ?? "") + outcomes.join(""),
    leftOut: saidOf(lent, leftOut),
    from,
    credit,
  });
}

function saidOf(lent: RungStanding | undefined, added: readonly NotesLeftOut[]): readonly NotesLeftOut[] | undefined {
  if (lent?.leftOut === undefined && !added.some(([, asked]) => asked > 0)) return undefined;
  return [...(lent?.leftOut ?? lent?.takes.map(() => NOTHING_SAID) ?? []), ...added];
}
