import type { JournalEvent, Standing, TakeAssessed } from "../../schema/index.js";
import { applyEvent, OUTCOMES } from "./applyEvent.js";
import type { Complaint } from "./complaint.js";
import { openDivergence } from "./divergence.js";
import { saysTheSame } from "./event/id.js";
import { compareKeys } from "./event/order.js";
import {
  eventBehind,
  eventIdReused,
  type JournalOwner,
  journalGap,
  notEnrolled,
  ofOtherJournal,
  takeToldTwice,
} from "./event/problems.js";
import {
  finishedStanding,
  type MutableStanding,
  mutableStanding,
  outcomeAt,
  placesIn,
  rungsOf,
  takeAt,
} from "./mutableStanding.js";

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
  let owner = of ?? after;
  let turn = after?.latest.turn ?? 0;

  const count = (event: JournalEvent): readonly Complaint[] => {
    if (event.kind === "enrolled") owner ??= event;
    if (owner === undefined) return [notEnrolled(event)];
    const foreign = ofOtherJournal(event, owner);
    if (foreign !== undefined) return [foreign];
    if (standing.student === undefined && event.kind !== "enrolled") return [notEnrolled(event)];
    if (after !== undefined && compareKeys(event, after.latest) <= 0)
      return event.id === after.latest.id ? NONE : [eventBehind(event, after)];
    const known =
      event.kind === "take assessed" ? isCountedAs(standing, event) : isSame(event, decisions.get(event.id));
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
function isCountedAs(standing: MutableStanding, event: TakeAssessed): boolean | undefined {
  for (const { drill, rung, place } of placesIn(standing).get(event.take) ?? []) {
    const entry = standing.drills.get(drill);
    const held = entry && rungsOf(entry).get(rung);
    if (held !== undefined && takeAt(held, place) === event.take)
      return drill === event.drill && rung === event.rung && outcomeAt(held, place) === OUTCOMES[event.verdict];
  }
  return undefined;
}
