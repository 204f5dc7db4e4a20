import type { JournalEvent, Standing, TakeAssessed } from "../../schema/index.js";
import { takeIn } from "../standing.js";
import { applyEvent, OUTCOMES } from "./applyEvent.js";
import type { Complaint } from "./complaint.js";
import { openDivergence } from "./divergence.js";
import { saysTheSame } from "./eventId.js";
import { compareKeys } from "./eventOrder.js";
import {
  eventBehind,
  eventIdReused,
  type JournalOwner,
  journalGap,
  notEnrolled,
  ofOtherJournal,
  takeToldTwice,
} from "./eventProblems.js";
import { finishedStanding, type MutableStanding, mutableStanding, placeOf } from "./mutableStanding.js";

export interface ReplayOptions {
  /** Student and curriculum of the journal. When left out, those of the first enrolment. */
  readonly of?: JournalOwner;
  /** A standing to continue from. Events that belong before its latest event have no effect (EVENT_BEHIND). */
  readonly after?: Standing;
}

/** Counts events one by one. The events must come in the order of the journal. */
export interface Replay {
  /** What is wrong with an event. An event with any complaint but JOURNAL_GAP has no effect. */
  count(event: JournalEvent): readonly Complaint[];
  /** The standing after all counted events; `undefined` when nobody is enrolled. */
  close(): Standing | undefined;
}

const NONE: readonly Complaint[] = [];

/** Starts a replay: from nothing, or from the standing in `after`. */
export function openReplay({ of, after }: ReplayOptions): Replay {
  const standing = mutableStanding(after);
  const decisions = new Map<string, JournalEvent>();
  const divergence = openDivergence();
  const countedBefore = after === undefined ? () => undefined : takeLookup(after);
  let owner = of ?? after;
  let turn = after?.latest.turn ?? 0;

  const isSameTake = (event: TakeAssessed): boolean | undefined =>
    standing.places.has(event.take) ? isCountedAs(standing, event) : isSame(event, countedBefore(event));
  const count = (event: JournalEvent): readonly Complaint[] => {
    if (event.kind === "enrolled") owner ??= event;
    if (owner === undefined) return [notEnrolled(event)];
    const foreign = ofOtherJournal(event, owner);
    if (foreign !== undefined) return [foreign];
    if (standing.student === undefined && event.kind !== "enrolled") return [notEnrolled(event)];
    if (after !== undefined && compareKeys(event, after.latest) <= 0)
      return event.id === after.latest.id ? NONE : [eventBehind(event, after)];
    const known = event.kind === "take assessed" ? isSameTake(event) : isSame(event, decisions.get(event.id));
    if (known !== undefined && event.kind === "take assessed") {
      divergence.noteTelling(event, known ? "the same" : "otherwise");
      return known ? NONE : [takeToldTwice(event)];
    }
    if (known !== undefined) return known ? NONE : [eventIdReused(event)];
    const missing = event.turn > turn + 1 ? [journalGap(event, turn)] : NONE;
    turn = event.turn;
    if (event.kind === "edition changed") divergence.noteRenaming(event);
    const found = applyEvent(standing, event);
    const wrong = found && divergence.weigh(standing, event, found);
    // The next event comes after what another device overtook, too: before it, it would change what overtook it.
    if (wrong?.code === "DECISION_OVERTAKEN") standing.latest = { turn: event.turn, at: event.at, id: event.id };
    // An event without effect must not block a valid event with the same id.
    if (event.kind !== "take assessed" && wrong === undefined) decisions.set(event.id, event);
    return wrong === undefined ? missing : [...missing, wrong];
  };
  return { count, close: () => finishedStanding(standing) };
}

/** Whether an event says the same as the counted event with its id; `undefined` when no event with that id was counted. */
function isSame(event: JournalEvent, first: JournalEvent | undefined): boolean | undefined {
  return first === undefined ? undefined : saysTheSame(first, event);
}

/** `isSame` for takes: their events are not kept, but rung and verdict can be looked up. */
function isCountedAs(standing: MutableStanding, event: TakeAssessed): boolean {
  const rung = standing.drills.get(event.drill)?.rungs.get(event.rung);
  const place = rung && placeOf(standing, rung, event.take);
  return place !== undefined && rung?.outcomes[place] === OUTCOMES[event.verdict];
}

/** A function that finds what a standing has counted of a take; it gives `undefined` for a take that was not counted. */
function takeLookup(standing: Standing): (event: TakeAssessed) => TakeAssessed | undefined {
  let asked = false;
  let known: Set<string> | undefined;
  return (event) => {
    // For one question, searching the lists is fastest. From the second question on, a set is faster.
    if (asked) known ??= new Set(standing.drills.flatMap(({ rungs }) => rungs.flatMap(({ takes }) => takes)));
    asked = true;
    if (known?.has(event.take) === false) return undefined;
    const counted = takeIn(standing, event.take);
    return counted && { ...event, ...counted };
  };
}
