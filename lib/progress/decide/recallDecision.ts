import { type Curriculum, drillCalled } from "../../curriculum/index.js";
import type { Advanced, DrillCompleted, GoneBack, JournalEvent, Standing, TakeAssessed } from "../../schema/index.js";
import { english, recallInEnglish, type Speaker, speakerOf } from "../../words/index.js";
import { compareEvents } from "../journal/event/order.js";
import { apply, fold } from "../journal/fold.js";
import { drillStanding } from "../standing.js";
import { type Decision, saidTogether } from "./decide.js";
import { openedSaid, reasonSaid } from "./reasonSaid.js";
import type { RungDecision } from "./rungDecision.js";
import { decideTake } from "./takeDecision.js";

/** Apart from what is said of decisions, because who decides need not have it. */
const say: Speaker<"recall"> = /* @__PURE__ */ speakerOf(english, recallInEnglish);

type DecisionEvent = Advanced | DrillCompleted | GoneBack;

const WHAT = { advanced: "advance", "drill completed": "complete", "gone back": "go back" } as const;

/**
 * The decision that a counted take led to, from the journal alone: for an app that sends a take again because the answer was lost. `events`
 * are those of the take and of its decision, and `standing` is the one after them, whatever came later. `undefined`: no such take was counted.
 *
 * The events may come in any order and more than once. A decision that had no effect, as another one came first, is passed over. The reason of a `hold` is
 * told by the gate of the edition it was made in: with another edition as `curriculum`, it says no more than which one that was.
 *
 * @example
 * recallDecision(curriculum, events, "evening-3")?.what // "advance", as it was decided then
 */
export function recallDecision(
  curriculum: Curriculum,
  events: Iterable<JournalEvent>,
  take: string,
): Decision | undefined {
  const journal = [...events].sort(compareEvents);
  const place = journal.findIndex((event, i) => isTake(event, take) && hasEffect(journal, i));
  const before = fold(journal.slice(0, Math.max(0, place))).standing;
  if (place < 0 || before === undefined) return undefined;
  const counted = journal[place] as TakeAssessed;
  const from = drillStanding(before, counted.drill)?.rung;
  const led = journal.findIndex((event, i) => i > place && restsOn(event, take) && hasEffect(journal, i));
  const last = led < 0 ? place : led;
  const opened = openedAfter(journal, last);
  const names = opened.map(({ drill }) => drill);
  const told = [counted, ...(led < 0 ? [] : [journal[led]!]), ...opened];
  const decision = led < 0 ? undefined : (journal[led] as DecisionEvent);
  const standing = fold(journal.slice(0, last + 1 + opened.length)).standing!;
  const held = decision === undefined ? heldBack(curriculum, before, counted) : undefined;
  return {
    what: decision === undefined ? "hold" : WHAT[decision.kind],
    drill: counted.drill,
    from,
    to: decision === undefined ? from : decision.kind === "drill completed" ? decision.from : decision.to,
    known: true,
    ...saidTogether([...(decision === undefined ? held!.reasons : [reasonSaid(decision)]), ...openedSaid(names)]),
    evidence: decision === undefined ? held!.evidence : decision.evidence,
    opened: names,
    events: told,
    standing,
    problems: [],
  };
}

function isTake(event: JournalEvent, take: string): boolean {
  return event.kind === "take assessed" && event.take === take;
}

/** Whether an event is a decision whose last piece of evidence is this take: that take brought it about. */
function restsOn(event: JournalEvent, take: string): boolean {
  return "evidence" in event && event.evidence.at(-1) === take;
}

/** Whether the event at this place of a journal in order changes the standing. */
function hasEffect(journal: readonly JournalEvent[], place: number): boolean {
  const { problems } = fold(journal.slice(0, place + 1));
  return problems.every(({ code, where }) => code === "JOURNAL_GAP" || where.pointer !== `/${place}`);
}

/** The drills opened together with the event at this place: their events follow it turn by turn, at the same time. */
function openedAfter(journal: readonly JournalEvent[], place: number): readonly (JournalEvent & { drill: string })[] {
  const { turn, at } = journal[place]!;
  const opened: (JournalEvent & { drill: string })[] = [];
  for (const event of journal.slice(place + 1)) {
    if (event.kind !== "drill opened" || event.at !== at || event.turn !== turn + opened.length + 1) break;
    opened.push(event);
  }
  return opened;
}

/** Why a counted take led to no decision: by its gate, or that its edition is not the one at hand, or that another decision came first. */
function heldBack(
  curriculum: Curriculum,
  before: Standing,
  take: TakeAssessed,
): Pick<RungDecision, "reasons" | "evidence"> {
  const drill = before.edition === curriculum.edition ? drillCalled(curriculum, take.drill) : undefined;
  if (drill === undefined)
    return { reasons: [say("recall.held-in-edition", { edition: before.edition })], evidence: [] };
  const decided = decideTake(drill, apply(before, take).standing, take);
  return decided.what === "hold" ? decided : { reasons: [say("recall.decided-before")], evidence: [] };
}
