import type { JournalEvent, ReportTally, TakeAssessed } from "../../schema/index.js";

/** What a take showed, as far as it tells why a rung is not gained. */
export type StayTake = Pick<TakeAssessed, "rung" | "verdict" | "reasons" | "measured" | "silences" | "lengths">;

/** Takes of a stay that are kept one by one, the last ones; all are counted. Our choice: far more than a stuck student plays before somebody looks. */
const MOST_TAKES = 200;

/** A student's stay on a rung of a drill: how long, and with which takes. */
export interface RungStay {
  readonly drill: string;
  readonly rung: string;
  /** When the student came to the rung. */
  readonly since: string;
  /** When the student last reached a rung of the drill for the first time. Going back and up again does not count. */
  readonly gainedAt: string;
  /** Takes on the student's rung since then, by verdict. */
  readonly tally: ReportTally;
  /** The last of them, in order. */
  readonly takes: readonly StayTake[];
  readonly isOpen: boolean;
  /** Rungs the student has been on. */
  readonly known: readonly string[];
}

/** Stays in all drills, by a journal read so far. */
export interface RungStays {
  /** By name of the drill. */
  readonly of: Map<string, RungStay>;
  /** The last takes of a drill under a name it does not have yet: another device may know a new name first. */
  readonly early: Map<string, readonly StayTake[]>;
}

/** Changes the stays by one event. Only events that have an effect in the journal may be given, in its order. */
export function applyToStays(stays: RungStays, event: JournalEvent): void {
  switch (event.kind) {
    case "enrolled":
      return;
    case "take assessed": {
      const stay = stays.of.get(event.drill);
      if (stay === undefined) stays.early.set(event.drill, last(earlyIn(stays, event.drill), [stayTake(event)]));
      else if (stay.isOpen && stay.rung === event.rung) addTakes(stays, event.drill, [stayTake(event)]);
      return;
    }
    case "drill opened":
    case "set by teacher":
      // Rungs known before stay known, but the count begins anew: somebody decided so.
      arrive(stays, event, { rung: event.to, gains: true });
      return;
    case "advanced":
      arrive(stays, event, { rung: event.to, gains: stays.of.get(event.drill)?.known.includes(event.to) !== true });
      return;
    case "gone back":
      arrive(stays, event, { rung: event.to, gains: false });
      return;
    case "drill completed":
      change(stays, event.drill, { isOpen: false });
      return;
    case "edition changed":
      changeEdition(stays, event);
  }
}

const NONE: Pick<RungStay, "tally" | "takes"> = { tally: { within: 0, beyond: 0, unclear: 0 }, takes: [] };

function last(before: readonly StayTake[], takes: readonly StayTake[]): readonly StayTake[] {
  return [...before, ...takes].slice(-MOST_TAKES);
}

function change({ of }: RungStays, drill: string, to: Partial<RungStay>): void {
  const stay = of.get(drill);
  if (stay !== undefined) of.set(drill, { ...stay, ...to });
}

function addTakes(stays: RungStays, drill: string, added: readonly StayTake[]): void {
  const { tally, takes } = stays.of.get(drill)!;
  const counted = { ...tally };
  for (const { verdict } of added) counted[verdict]++;
  change(stays, drill, { tally: counted, takes: last(takes, added) });
}

/** Begins a stay on a rung; the count begins anew when the rung `gains` the student something. */
function arrive(
  stays: RungStays,
  { drill, at }: { readonly drill: string; readonly at: string },
  { rung, gains }: { readonly rung: string; readonly gains: boolean },
): void {
  const before = stays.of.get(drill);
  const known = before?.known ?? [];
  stays.of.set(drill, {
    ...(gains || before === undefined ? { drill, gainedAt: at, ...NONE } : before),
    rung,
    since: at,
    isOpen: true,
    known: known.includes(rung) ? known : [...known, rung],
  });
}

/**
 * Changes the stays by a new edition, in the order of the journal's fold: new names, then rungs the edition lacks, then complete drills that go
 * on, then those that are complete again. The count begins anew for whoever is moved or goes on, also where the fold lets an earlier stay go
 * on: a new edition calls nobody stuck.
 */
function changeEdition(stays: RungStays, event: Extract<JournalEvent, { kind: "edition changed" }>): void {
  for (const { from, to } of event.renamed) rename(stays, from, to);
  for (const { drill, from, to } of event.moved) {
    const stay = stays.of.get(drill);
    if (stay?.rung !== from) continue;
    arrive(stays, { drill, at: event.at }, { rung: to, gains: true });
    change(stays, drill, { isOpen: stay.isOpen });
  }
  for (const drill of event.reopened)
    if (stays.of.get(drill)?.isOpen === false) change(stays, drill, { isOpen: true, gainedAt: event.at, ...NONE });
  for (const drill of event.completeAgain ?? []) change(stays, drill, { isOpen: false });
}

function stayTake({ rung, verdict, reasons, measured, silences, lengths }: TakeAssessed): StayTake {
  return {
    rung,
    verdict,
    ...(reasons && { reasons }),
    ...(measured && { measured }),
    ...(silences && { silences }),
    ...(lengths && { lengths }),
  };
}

function earlyIn({ early }: RungStays, drill: string): readonly StayTake[] {
  return early.get(drill) ?? [];
}

/** Gives a stay the new name of its drill, with the takes on its rung that came under that name before. */
function rename(stays: RungStays, from: string, to: string): void {
  if (stays.of.has(to)) return;
  const stay = stays.of.get(from);
  const early = earlyIn(stays, to);
  if (stay === undefined) {
    const takes = last(early, earlyIn(stays, from));
    if (takes.length > 0) stays.early.set(to, takes);
    stays.early.delete(from);
    return;
  }
  stays.of.delete(from);
  stays.of.set(to, { ...stay, drill: to });
  const here = early.filter(({ rung }) => rung === stay.rung);
  if (stay.isOpen) addTakes(stays, to, here);
  stays.early.delete(to);
}
