import type { Curriculum } from "../curriculum/index.js";
import { rungCalled, rungNumber, rungs } from "../drill/index.js";
import { compareEvents, fold, rungStanding } from "../progress/index.js";
import type {
  CourseReport,
  DrillStanding,
  JournalEvent,
  ReportTally,
  StudentPlace,
  TakeAssessed,
} from "../schema/index.js";
import { instantOf } from "../time/index.js";
import { dateOf, daysBetween } from "./calendarDays.js";
import { failureCauses } from "./failureCauses.js";
import { applyToStays, openStays, type RungStay } from "./rungStay.js";
import { stuckAfter } from "./stallThreshold.js";
import { unmeasured } from "./unmeasured.js";

/** Days without a take after which a student with an open drill is called quiet. Our choice: three weekly lessons. */
export const QUIET_DAYS = 21;

export interface JournalOptions {
  /** The moment reported (RFC 3339). */
  readonly at: string;
  /** Leaves out events later than `at`. Otherwise all events count, whatever the clocks said that wrote them. */
  readonly asOf?: true;
  /** First day whose takes are counted, an ISO 8601 date; places and stalls rest on all takes. */
  readonly since?: string;
}

/** A journal: one student in one course, its events in any order and any number of times. */
export interface ReportedJournal {
  readonly student: string;
  readonly curriculum: string;
  readonly events: readonly JournalEvent[];
  /** Finds an edition of the course, if it is at hand. Without it rungs have no numbers, and nobody can be called stuck. */
  readonly courseOf?: (edition: string) => Curriculum | undefined;
}

/** A journal's report, the edition it was made with, and the takes in the time reported, each once. */
export interface ReadOut {
  readonly report: CourseReport;
  readonly course?: Curriculum | undefined;
  readonly takes: readonly TakeAssessed[];
}

/** Report of one journal; `undefined` when it has no event by then. Events without effect on the standing have none here. */
export function reportJournal(journal: ReportedJournal, options: JournalOptions): ReadOut | undefined {
  const { student, curriculum } = journal;
  const events = eventsBy(journal.events, options);
  if (events.length === 0) return undefined;
  const { standing, problems } = fold(events, { of: { student, curriculum } });
  if (standing === undefined)
    return { report: { curriculum, quiet: false, takes: counted([]), complete: [], places: [] }, takes: [] };
  const idle = new Set(
    problems.filter(({ code }) => code !== "JOURNAL_GAP").map(({ where }) => Number(where.pointer!.slice(1))),
  );
  const course = journal.courseOf?.(standing.edition);
  const stays = openStays();
  const seen = new Set<string>();
  const takes: TakeAssessed[] = [];
  let enrolled: string | undefined;
  events.forEach((event, i) => {
    if (idle.has(i) || seen.has(event.id)) return;
    seen.add(event.id);
    applyToStays(stays, event);
    if (event.kind === "enrolled") enrolled = event.at;
    if (event.kind === "take assessed") takes.push(event);
  });
  const open = standing.drills.filter(({ state, withdrawn }) => state === "open" && withdrawn !== true);
  const lastTake = latestOf(takes);
  const { since } = options;
  const inTime = since === undefined ? takes : takes.filter(({ at }) => dateOf(at) >= since);
  const report: CourseReport = {
    curriculum,
    edition: standing.edition,
    enrolled: enrolled!,
    ...(lastTake === undefined ? {} : { lastTake }),
    quiet: open.length > 0 && daysBetween(lastTake ?? enrolled!, options.at) >= QUIET_DAYS,
    takes: counted(inTime),
    complete: standing.drills.filter(({ state }) => state === "complete").map(({ drill }) => drill),
    places: open.map((held) => placeOf(held, stays.of.get(held.drill)!, course)),
  };
  return { report, course, takes: inTime };
}

/** The events that count at the moment reported, in the order of the journal. */
export function eventsBy(events: readonly JournalEvent[], { at, asOf }: JournalOptions): readonly JournalEvent[] {
  const until = instantOf(at);
  const told = asOf === undefined ? [...events] : events.filter((event) => instantOf(event.at) <= until);
  return told.sort(compareEvents);
}

function latestOf(takes: readonly TakeAssessed[]): string | undefined {
  let latest: string | undefined;
  for (const { at } of takes) if (latest === undefined || instantOf(at) > instantOf(latest)) latest = at;
  return latest;
}

function placeOf(held: DrillStanding, stay: RungStay, course: Curriculum | undefined): StudentPlace {
  const rung = held.rung!;
  const here = rungStanding(held, rung)!;
  const drill = course?.drills.find(({ name }) => name === held.drill);
  const known = rungCalled(drill, rung);
  const wait = drill === undefined ? unmeasured("report.no-course") : stuckAfter(drill);
  const isStuck = typeof wait === "number" && stay.takes.length >= wait;
  return {
    drill: held.drill,
    ...(drill?.title === undefined ? {} : { title: drill.title }),
    rung,
    ...(known === undefined ? {} : { number: rungNumber(known) }),
    ...(drill === undefined ? {} : { rungs: rungs(drill).count }),
    since: stay.since,
    takes: lettersCounted(here.outcomes.slice(here.from)),
    stuckAfter: wait,
    ...(isStuck
      ? {
          stall: {
            since: stay.gainedAt,
            takes: counted(stay.takes),
            on: [...failureCauses(stay.takes, drill!.tolerance)],
          },
        }
      : {}),
  };
}

function counted(takes: readonly Pick<TakeAssessed, "verdict">[]): ReportTally {
  const tally = { within: 0, beyond: 0, unclear: 0 };
  for (const { verdict } of takes) tally[verdict]++;
  return tally;
}

/** Takes by the letters of a standing's outcomes. */
function lettersCounted(outcomes: string): ReportTally {
  const verdicts = { w: "within", b: "beyond", u: "unclear" } as const;
  return counted([...outcomes].map((letter) => ({ verdict: verdicts[letter as keyof typeof verdicts] })));
}
