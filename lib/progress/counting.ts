import type { Problem } from "../base/index.js";
import type { JournalEvent, Standing, TakeAssessed } from "../schema/index.js";
import { progressProblem } from "./codes.js";
import { saysTheSame } from "./eventId.js";
import { compareKeys } from "./eventOrder.js";
import { closeLedger, type Ledger, openLedger, placeOf } from "./ledger.js";
import { OUTCOMES, recordEvent } from "./recordEvent.js";
import { takesOf } from "./takesOf.js";

export interface CountingOptions {
  /** Whose events these are; without it, those of whoever the first enrolment is of. */
  readonly of?: { readonly student: string; readonly curriculum: string };
  /** A standing to go on from. Events that belong before its latest one have no effect (EVENT_BEHIND). */
  readonly after?: Standing;
}

/** Counts events one by one; they must come in the journal's order. */
export interface Counting {
  /** The problems with an event; unless there is none but JOURNAL_GAP, it has no effect. */
  count(event: JournalEvent): readonly Problem[];
  close(): Standing | undefined;
}

const NONE: readonly Problem[] = [];

export function openCounting({ of, after }: CountingOptions): Counting {
  const ledger = openLedger(after);
  const decisions = new Map<string, JournalEvent>();
  const countedBefore = after === undefined ? () => undefined : takesOf(after);
  let whose = of ?? after;
  let turn = after?.latest.turn ?? 0;

  const countedTake = (event: TakeAssessed): boolean | undefined =>
    ledger.places.has(event.take) ? saysWhatIsCounted(ledger, event) : alike(event, countedBefore(event));
  const count = (event: JournalEvent): readonly Problem[] => {
    if (event.kind === "enrolled") whose ??= event;
    if (whose === undefined) return [notEnrolled(event)];
    if (event.student !== whose.student || event.curriculum !== whose.curriculum) return [foreign(event, whose)];
    if (ledger.student === undefined && event.kind !== "enrolled") return [notEnrolled(event)];
    if (after !== undefined && compareKeys(event, after.latest) <= 0) return behind(event, after);
    const known = event.kind === "take assessed" ? countedTake(event) : alike(event, decisions.get(event.id));
    if (known !== undefined) return known ? NONE : [reused(event)];
    const missing = event.turn > turn + 1 ? [gap(event, turn)] : NONE;
    turn = event.turn;
    const problem = recordEvent(ledger, event);
    // What has no effect must not stand in the way of an honest event with the same id.
    if (event.kind !== "take assessed" && problem === undefined) decisions.set(event.id, event);
    return problem === undefined ? missing : [...missing, problem];
  };
  return { count, close: () => closeLedger(ledger) };
}

/** Whether an event says what the one counted under its id says; `undefined` when none was. */
function alike(event: JournalEvent, first: JournalEvent | undefined): boolean | undefined {
  return first === undefined ? undefined : saysTheSame(first, event);
}

/** The same for takes, which are not kept but can be looked up. */
function saysWhatIsCounted(ledger: Ledger, event: TakeAssessed): boolean {
  const rung = ledger.drills.get(event.drill)?.rungs.get(event.rung);
  const place = rung && placeOf(ledger, rung, event.take);
  return place !== undefined && rung?.outcomes[place] === OUTCOMES[event.verdict];
}

function notEnrolled(event: JournalEvent): Problem {
  return progressProblem("NOT_ENROLLED", `event ${event.id} comes before any enrolment`);
}

function foreign(event: JournalEvent, whose: { readonly student: string; readonly curriculum: string }): Problem {
  const message = `event ${event.id} is of ${event.student} in ${event.curriculum}; this journal is of ${whose.student} in ${whose.curriculum}`;
  return progressProblem("EVENT_FOREIGN", message);
}

function behind(event: JournalEvent, after: Standing): readonly Problem[] {
  if (event.id === after.latest.id) return NONE;
  const message = `event ${event.id} (turn ${event.turn}) belongs before ${after.latest.id} (turn ${after.latest.turn}), which is counted`;
  return [progressProblem("EVENT_BEHIND", message, {}, "if it is not known yet, fold the journal with it")];
}

function reused(event: JournalEvent): Problem {
  return progressProblem(
    "EVENT_ID_REUSED",
    `two events with the id ${event.id} say different things; the first counts`,
  );
}

function gap(event: JournalEvent, turn: number): Problem {
  const message = `event ${event.id} has turn ${event.turn}, and the last one before it ${turn}; turns go up by one`;
  return progressProblem("JOURNAL_GAP", message, {}, "look for events that were lost or have not arrived");
}
