import type { JournalEvent, TakeAssessed } from "../schema/index.js";

/** A student's stay in an open drill. */
export interface Stay {
  rung: string;
  /** When the student came to the rung. */
  since: string;
  /** When the student last came to a rung of the drill for the first time: going back and up again gains nothing. */
  gainedAt: string;
  /** Takes played at the student's rung since then, in order. */
  takes: TakeAssessed[];
  isOpen: boolean;
  readonly known: Set<string>;
}

/** What has been counted of a journal so far, by drill. */
export interface Stays {
  readonly of: Map<string, Stay>;
  /** Takes played under the name of a drill that was not open under it: another device may have heard of a new name first. */
  readonly early: Map<string, TakeAssessed[]>;
}

export function openStays(): Stays {
  return { of: new Map(), early: new Map() };
}

/** Lets an event of a journal act on the stays; only events with an effect may be given, in the journal's order. */
export function follow(stays: Stays, event: JournalEvent): void {
  switch (event.kind) {
    case "enrolled":
      return;
    case "take assessed": {
      const stay = stays.of.get(event.drill);
      if (stay === undefined) earlyIn(stays, event.drill).push(event);
      else if (stay.isOpen && stay.rung === event.rung) stay.takes.push(event);
      return;
    }
    case "drill opened":
    case "set by teacher":
      // What was known before is known still, but the count begins anew: somebody decided that it should.
      arrive(stays, event, { rung: event.to, gains: true });
      return;
    case "advanced":
      arrive(stays, event, { rung: event.to, gains: stays.of.get(event.drill)?.known.has(event.to) !== true });
      return;
    case "eased":
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

function arrive(
  stays: Stays,
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
 * As the journal's fold has it: names first, then rungs the edition lacks, then drills that were complete and go on, and those that are complete again.
 * Who is moved or goes on is counted anew, also where the fold lets an earlier stay go on: a new edition calls nobody stuck.
 */
function changeEdition(stays: Stays, event: Extract<JournalEvent, { kind: "edition changed" }>): void {
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

function earlyIn({ early }: Stays, drill: string): TakeAssessed[] {
  const takes = early.get(drill) ?? [];
  early.set(drill, takes);
  return takes;
}

/** A stay goes on under the new name, with what was played on its rung under that name before. */
function rename(stays: Stays, from: string, to: string): void {
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
