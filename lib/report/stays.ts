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

export type Stays = Map<string, Stay>;

/** Lets an event of a journal act on the stays; only events with an effect may be given, in the journal's order. */
export function follow(stays: Stays, event: JournalEvent): void {
  switch (event.kind) {
    case "enrolled":
      return;
    case "take assessed": {
      const stay = stays.get(event.drill);
      if (stay?.isOpen === true && stay.rung === event.rung) stay.takes.push(event);
      return;
    }
    case "drill opened":
    case "set by teacher":
      // What was known before is known still, but the count begins anew: somebody decided that it should.
      arrive(stays, event, { rung: event.to, gains: true });
      return;
    case "advanced":
      arrive(stays, event, { rung: event.to, gains: stays.get(event.drill)?.known.has(event.to) !== true });
      return;
    case "eased":
      arrive(stays, event, { rung: event.to, gains: false });
      return;
    case "drill completed": {
      const stay = stays.get(event.drill);
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
  const before = stays.get(drill);
  const gained = gains || before === undefined;
  stays.set(drill, {
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
  for (const { from, to } of event.renamed) {
    const stay = stays.get(from);
    if (stay === undefined || stays.has(to)) continue;
    stays.delete(from);
    stays.set(to, stay);
  }
  for (const { drill, from, to } of event.moved) {
    const stay = stays.get(drill);
    if (stay?.rung !== from) continue;
    const { isOpen } = stay;
    arrive(stays, { drill, at: event.at }, { rung: to, gains: true });
    stays.get(drill)!.isOpen = isOpen;
  }
  for (const drill of event.reopened) {
    const stay = stays.get(drill);
    if (stay === undefined || stay.isOpen) continue;
    stay.isOpen = true;
    stay.gainedAt = event.at;
    stay.takes = [];
  }
  for (const drill of event.completeAgain ?? []) {
    const stay = stays.get(drill);
    if (stay !== undefined) stay.isOpen = false;
  }
}
