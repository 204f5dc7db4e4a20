import { failure, success } from "../base/index.js";
import { type Curriculum, drillCalled, successorIn } from "../curriculum/index.js";
import { otherScores, parseSettings, settingsText } from "../drill/index.js";
import {
  changeEdition,
  type Decision,
  decide,
  decideDue,
  type EditionEffect,
  effectOfEdition,
  fingerprint,
  recallDecision,
  takeIn,
} from "../progress/index.js";
import type { Finding, JournalEvent, Score, Standing, TakeAssessed } from "../schema/index.js";
import { eventsOf, type OpenJournal, record, type Store } from "../store/index.js";
import { assess } from "../take/index.js";
import { practiceProblem } from "./codes.js";
import { type CourseInUse, changeOptions, scoreFor, useFor } from "./courseInUse.js";
import { findJournal } from "./findJournal.js";
import { type NamedTake, playedTo, requireNames } from "./playedTo.js";
import type { Problem, Result } from "./problem.js";
import { sayProblem } from "./say.js";

export interface SubmitOptions extends CourseInUse {
  /** The time of the decision, RFC 3339. */
  readonly at: string;
}

/** What came of a take. */
export interface Submitted {
  /** What the take showed; of a take counted before, `undefined` when the editions given do not have its rung any more. */
  readonly finding: Finding | undefined;
  /** The score it was judged by; there when `finding` is. */
  readonly score: Score | undefined;
  readonly decision: Pick<Decision, "what" | "drill" | "from" | "to" | "reason" | "messages" | "evidence" | "opened">;
  /** The events that were written; of a take counted before, its own and those of the decision it led to. */
  readonly events: readonly JournalEvent[];
  /** The standing now. */
  readonly standing: Standing;
  /** Whether the take was counted before. It never counts twice. */
  readonly known: boolean;
  /** What going over to the edition in use meant for the student, when this take did it. */
  readonly moved?: EditionEffect;
}

/**
 * Assesses a take by the rung it was played to, keeps what it showed, and decides. When another device writes in between, it decides anew on what is there then.
 *
 * The take must say its `id`, `drill` and `rung` (settings, not a number), and its `mix` and `draw` when they are not the usual ones: a take that
 * waited is never judged by the rung the student has come to meanwhile. A take sent again gives the finding and the decision it led to again, `known`. A name
 * that neither edition knows is looked up in the edition changes of the journal. A take from outside the program is checked by `checkTake` first, and
 * then by `requireNames`, whose problems are answered here too.
 *
 * Problems: EDITION_BEHIND (see `useFor`), TAKE_NOT_NAMED, TAKE_RUNG_NOT_SAID, TAKE_ID_REUSED (another rung), TAKE_CHANGED (other notes), FINDING_INCOMPLETE (an id over 200 characters), DRILL_UNKNOWN, those of `findRung`,
 * `findMix` and `findJournal`; nothing is written then. Throws `RangeError` when `at` is not an RFC 3339 time; rejects with a `StoreProblem`
 * when the store fails, and can be called again.
 *
 * @example
 * const take = { id: "evening-3", drill: "steady", rung: "tempo=84,variant=plain", onsets: [0.02, 0.73] };
 * const submitted = await submit(store, "tern", take, { course, at: "2026-03-02T17:30:00Z" });
 */
export async function submit(
  store: Store,
  student: string,
  take: NamedTake,
  options: SubmitOptions,
): Promise<Result<Submitted>> {
  const named = requireNames(take);
  if (!named.ok) {
    const enrolled = await findJournal(store, student, options.course.name);
    return failure(...named.problems, ...(enrolled.ok ? [] : enrolled.problems));
  }
  const key = { student, curriculum: options.course.name };
  const judged = new Map<Curriculum, Result<Judged>>();
  const judgedOnce = (played: NamedTake, use: CourseInUse): Result<Judged> => {
    const found = judged.get(use.course) ?? judge(played, use);
    judged.set(use.course, found);
    return found;
  };
  const isKnown = editionsOf(options).some((each) => drillCalled(each, named.value.drill) !== undefined);
  const { result } = await record(store, key, async (journal) => {
    if (!isEnrolled(journal)) return refusal(await findJournal(store, student, key.curriculum));
    const use = useFor(journal.standing, options);
    if (!use.ok) return { events: [], result: use };
    const inUse = { ...use.value, at: options.at };
    const isNew = takeIn(journal.standing, named.value.id) === undefined;
    const events = isNew && isKnown ? [] : await eventsOf(store, key);
    const played = isKnown ? named.value : { ...named.value, drill: calledNow(named.value.drill, events) };
    return isNew
      ? count(judgedOnce(played, inUse), journal.standing, inUse)
      : tellAgain(played, journal.standing, { ...inUse, events });
  });
  return result;
}

function editionsOf({ course, before }: CourseInUse): readonly Curriculum[] {
  return before === undefined ? [course] : [course, before];
}

/** What the drill of a former name is called now, by the edition changes of a journal in order. The drill that had the name last is meant. */
function calledNow(name: string, events: readonly JournalEvent[]): string {
  const changes = events.filter((event) => event.kind === "edition changed");
  const last = changes.findLastIndex(({ renamed }) => renamed.some(({ from }) => from === name));
  return changes
    .slice(Math.max(0, last))
    .reduce((now, { renamed }) => renamed.find(({ from }) => from === now)?.to ?? now, name);
}

/** What is to be written, and the answer once it is. */
interface Answer {
  readonly events: readonly JournalEvent[];
  readonly result: Result<Submitted>;
}

function isEnrolled(journal: OpenJournal | undefined): journal is OpenJournal & { readonly standing: Standing } {
  return journal?.standing !== undefined;
}

function refusal(result: Result<unknown>): Answer {
  // A journal that came back between two looks is found by the next call.
  return { events: [], result: failure(...(result.ok ? [journalErased()] : result.problems)) };
}

function journalErased(): Problem {
  const message = sayProblem("practice-problem.journal-erased");
  return practiceProblem("STUDENT_UNKNOWN", message, {}, sayProblem("practice-problem.journal-erased-remedy"));
}

/** What a take showed, and the score it was judged by. */
interface Judged {
  readonly score: Score;
  readonly finding: Finding;
}

function judge(take: NamedTake, use: CourseInUse): Result<Judged> {
  const played = playedTo(take, use);
  if (!played.ok) return played;
  const { course, rung } = played.value;
  const score = scoreFor(course, rung, take);
  return success({
    score,
    finding: { ...assess(score, take, { others: otherScores(rung, course.drills) }), take: take.id },
  });
}

/** A take that is new: counted and decided on. */
function count(judged: Result<Judged>, held: Standing, { at, ...use }: SubmitOptions): Answer {
  if (!judged.ok) return { events: [], result: judged };
  const { score, finding } = judged.value;
  const { course } = use;
  const over = changeOptions(held, use, at);
  const moved = changeEdition(course, held, over);
  const drill = successorIn(course, finding.drill!, use.before)?.name ?? finding.drill!;
  const decided = decide(course, moved.standing, { ...finding, drill }, at);
  if (decided.problems.length > 0) return { events: [], result: failure(...decided.problems) };
  const events = [...moved.events, ...decided.events];
  const result = success({
    finding,
    score,
    decision: partsOf(decided),
    events,
    standing: decided.standing,
    known: false,
    ...(moved.events.length === 0 ? {} : { moved: effectOfEdition(course, held, over) }),
  });
  return { events, result };
}

/** A take counted before belongs to the rung it was counted for: it is assessed by that, and its decision is told again. */
function tellAgain(
  take: NamedTake,
  held: Standing,
  { course, before, at, events }: SubmitOptions & { readonly events: readonly JournalEvent[] },
): Answer {
  const counted = takeIn(held, take.id)!;
  const recalled = recallDecision(course, events, take.id);
  // The journal was erased between the standing and its events.
  if (recalled === undefined) return refusal(success(undefined));
  const use = { course, ...(before === undefined ? {} : { before }) };
  if (!editionsOf(use).some((each) => isSame(take, { ...counted, then: recalled.drill! }, each))) {
    const { drill, rung } = counted;
    const played = { take: take.id, drill, rung, otherDrill: take.drill, otherRung: take.rung };
    const message = sayProblem("practice-problem.take-id-reused", played);
    const remedy = sayProblem("practice-problem.take-id-reused-remedy");
    return { events: [], result: failure(practiceProblem("TAKE_ID_REUSED", message, { pointer: "/id" }, remedy)) };
  }
  const shown = judge(take, use);
  if (shown.ok && isChanged(shown.value.finding, recalled.events[0] as TakeAssessed, course)) {
    const message = sayProblem("practice-problem.take-changed", { take: take.id });
    const remedy = sayProblem("practice-problem.take-changed-remedy");
    return { events: [], result: failure(practiceProblem("TAKE_CHANGED", message, { pointer: "/id" }, remedy)) };
  }
  // Journals that were merged may have met a gate on which nobody has decided yet. What was counted in another edition was decided on by its rules.
  const isOfNow = [held, recalled.events[0] as TakeAssessed].every(({ edition }) => edition === course.edition);
  const due = shown.ok && isOfNow ? decideDue(course, held, shown.value.finding, at) : undefined;
  const decided = due !== undefined && due.events.length > 0 ? due : recalled;
  const result = success({
    finding: shown.ok ? shown.value.finding : undefined,
    score: shown.ok ? shown.value.score : undefined,
    decision: partsOf(decided),
    events: decided.events,
    standing: decided === due ? due.standing : held,
    known: true,
  });
  return { events: decided === due ? due.events : [], result };
}

/** Whether a take shows something else than what was counted under its id in the same edition: it is another take. */
function isChanged(finding: Finding, counted: TakeAssessed, { edition }: Curriculum): boolean {
  return counted.finding !== undefined && counted.edition === edition && counted.finding !== fingerprint(finding);
}

/** Whether a take says the drill and the rung it was counted for; `then` is the name the drill had. */
function isSame(
  take: NamedTake,
  counted: { readonly drill: string; readonly rung: string; readonly then: string },
  course: CourseInUse["course"],
): boolean {
  const now = drillCalled(course, take.drill)?.name;
  if (![take.drill, now].some((name) => name === counted.drill || name === counted.then)) return false;
  const played = playedTo(take, { course });
  const settings = parseSettings(take.rung);
  const rung = played.ok ? played.value.rung.settings : settings.ok ? settings.value : {};
  return settingsText(rung) === counted.rung;
}

function partsOf({ what, drill, from, to, reason, messages, evidence, opened }: Decision): Submitted["decision"] {
  return { what, drill, from, to, reason, messages, evidence, opened };
}
