import type { JournalEvent, TakeAssessed } from "../../schema/index.js";

/** What a take showed, as far as it tells why a rung is not gained. */
export type StayTake = Pick<TakeAssessed, "rung" | "verdict" | "reasons" | "measured" | "silences" | "lengths">;

/** A student's stay on a rung of a drill: how long, and with which takes. */
export interface RungStay {
  rung: string;
  /** When the student came to the rung. */
  since: string;
  /** When the student last reached a rung of the drill for the first time. Going back and up again does not count. */
  gainedAt: string;
  /** Takes on the student's rung since then, in order. */
  takes: StayTake[];
  isOpen: boolean;
  /** Rungs the student has been on. */
  readonly known: Set<string>;
}

/** Stays in all drills, by a journal read so far. */
export interface RungStays {
  /** By name of the drill. */
  readonly of: Map<string, RungStay>;
  /** Takes of a drill under a name it does not have yet: another device may know a new name first. */
  readonly early: Map<string, StayTake[]>;
}

/** Changes the stays by one event. Only events that have an effect in the journal may be given, in its order. */
export function applyToStays(stays: RungStays, event: JournalEvent): void {
  switch (event.kind) {
    case "enrolled":
      return;
    case "take assessed": {
      const stay = stays.of.get(event.drill);
      if (stay === undefined) earlyIn(stays, event.drill).push(stayTake(event));
      else if (stay.isOpen && stay.rung === event.rung) stay.takes.push(stayTake(event));
      return;
    }
    case "drill opened":
    case "set by teacher":
      // Rungs known before stay known, but the count begins anew: somebody decided so.
      arrive(stays, event, { rung: event.to, gains: true });
      return;
    case "advanced":
      arrive(stays, event, { rung: event.to, gains: stays.of.get(event.drill)?.known.has(event.to) !== true });
      return;
    case "gone back":
      arrive(stays, event, { rung: event.to, gains: false });
      return;
    case "drill completed": {
      const stay = stays.of.get(event.drill);
      if (stay !== undefined) stay.isOpen = false;
      return;
    }
    case "edition changed":
      changeEdition(stays, event);
  }
}

/** Begins a stay on a rung; the count begins anew when the rung `gains` the student something. */
function arrive(
  stays: RungStays,
  { drill, at }: { readonly drill: string; readonly at: string },
  { rung, gains }: { readonly rung: string; readonly gains: boolean },
): void {
  const before = stays.of.get(drill);
  const gained = gains || before === undefined;
  stays.of.set(drill, {
    rung,
    since: at,
    gainedAt: gained ? at : before.gainedAt,
    takes: gained ? [] : before.takes,
    isOpen: true,
    known: (before?.known ?? new Set()).add(rung),
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
    const { isOpen } = stay;
    arrive(stays, { drill, at: event.at }, { rung: to, gains: true });
    stays.of.get(drill)!.isOpen = isOpen;
  }
  for (const drill of event.reopened) {
    const stay = stays.of.get(drill);
    if (stay === undefined || stay.isOpen) continue;
    stay.isOpen = true;
    stay.gainedAt = event.at;
    stay.takes = [];
  }
  for (const drill of event.completeAgain ?? []) {
    const stay = stays.of.get(drill);
    if (stay !== undefined) stay.isOpen = false;
  }
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

function earlyIn({ early }: RungStays, drill: string): StayTake[] {
  const takes = early.get(drill) ?? [];
  early.set(drill, takes);
  return takes;
}

/** Gives a stay the new name of its drill, with the takes on its rung that came under that name before. */
function rename(stays: RungStays, from: string, to: string): void {
  if (stays.of.has(to)) return;
  const stay = stays.of.get(from);
  if (stay === undefined) {
    earlyIn(stays, to).push(...earlyIn(stays, from));
    stays.early.delete(from);
    return;
  }
  stays.of.delete(from);
  stays.of.set(to, stay);
  if (stay.isOpen) stay.takes.push(...earlyIn(stays, to).filter(({ rung }) => rung === stay.rung));
  stays.early.delete(to);
}
