import type { Curriculum } from "../curriculum/index.js";
import { rungCalled, rungNumber, rungs } from "../drill/index.js";
import {
  compareEvents,
  type DriftCells,
  daysBetween,
  fold,
  type JournalSummary,
  summarise,
  tallyOf,
} from "../progress/index.js";
import type { CourseReport, JournalEvent, StudentPlace } from "../schema/index.js";
import { instantOf } from "../time/index.js";
import { failureCauses } from "./failureCauses.js";
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

/** A summary of a journal, as stores keep it. */
export interface SummarisedJournal extends Omit<ReportedJournal, "events"> {
  readonly summary: JournalSummary;
}

/** A journal's report, the edition it was made with, and the drift of its silences in the time reported. */
export interface ReadOut {
  readonly report: CourseReport;
  readonly course?: Curriculum | undefined;
  readonly drift: readonly DriftCells[];
}

/** Report of one journal; `undefined` when it has no event by then. Events without effect on the standing have none here. */
export function reportJournal(journal: ReportedJournal, options: JournalOptions): ReadOut | undefined {
  const { student, curriculum } = journal;
  const events = eventsBy(journal.events, options);
  if (events.length === 0) return undefined;
  const summary = summarise(events, fold(events, { of: { student, curriculum } }), { since: options.since });
  if (summary !== undefined) return reportSummary({ ...journal, summary }, options);
  return { report: { curriculum, quiet: false, takes: tallyOf([]), complete: [], places: [] }, drift: [] };
}

/** Report of one journal by its summary. */
export function reportSummary({ curriculum, summary, courseOf }: SummarisedJournal, { at }: JournalOptions): ReadOut {
  const { edition, enrolled, lastTake, takes, complete, open, stays, drift } = summary;
  const course = courseOf?.(edition);
  const stayIn = new Map(stays.map((stay) => [stay.drill, stay]));
  const report: CourseReport = {
    curriculum,
    edition,
    enrolled,
    ...(lastTake === undefined ? {} : { lastTake }),
    quiet: open.length > 0 && daysBetween(lastTake ?? enrolled, at) >= QUIET_DAYS,
    takes,
    complete: [...complete],
    places: open.map((place) => placeOf(place, stayIn.get(place.drill)!, course)),
  };
  return { report, course, drift };
}

/** The events that count at the moment reported, in the order of the journal. */
export function eventsBy(events: readonly JournalEvent[], { at, asOf }: JournalOptions): readonly JournalEvent[] {
  const until = instantOf(at);
  const told = asOf === undefined ? [...events] : events.filter((event) => instantOf(event.at) <= until);
  return told.sort(compareEvents);
}

function placeOf(
  { drill: name, rung, takes }: JournalSummary["open"][number],
  stay: JournalSummary["stays"][number],
  course: Curriculum | undefined,
): StudentPlace {
  const drill = course?.drills.find((each) => each.name === name);
  const known = rungCalled(drill, rung);
  const wait = drill === undefined ? unmeasured("report.no-course") : stuckAfter(drill);
  const { within, beyond, unclear } = stay.tally;
  const isStuck = typeof wait === "number" && within + beyond + unclear >= wait;
  return {
    drill: name,
    ...(drill?.title === undefined ? {} : { title: drill.title }),
    rung,
    ...(known === undefined ? {} : { number: rungNumber(known) }),
    ...(drill === undefined ? {} : { rungs: rungs(drill).count }),
    since: stay.since,
    takes,
    stuckAfter: wait,
    ...(isStuck
      ? {
          stall: {
            since: stay.gainedAt,
            takes: stay.tally,
            on: [...failureCauses(stay.takes, drill!.tolerance)],
          },
        }
      : {}),
  };
}
