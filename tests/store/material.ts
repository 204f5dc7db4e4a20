import type { Curriculum } from "../../lib/curriculum/index.js";
import { beginJournal, type Decision, decide, drillStanding } from "../../lib/progress/index.js";
import type { JournalEvent, Verdict } from "../../lib/schema/index.js";
import { type JournalKey, record, type Store } from "../../lib/store/index.js";
import { courseOf, findingOf, timeOf } from "../progress/course.js";

export const COURSE: Curriculum = courseOf([
  { name: "steady", tempi: [80, 4, 4], gate: { kind: "in a row", count: 2 }, goBack: { after: 2, by: 1 } },
  { name: "half-bar", tempi: [72, 6, 6], goBack: { after: 3, by: 2 }, needs: ["steady"] },
]);

export const keyOf = (student: string): JournalKey => ({ student, curriculum: COURSE.name });

/** Enrols a student in a store. */
export function enrolIn(store: Store, student: string, course: Curriculum = COURSE): Promise<unknown> {
  return record(store, { student, curriculum: course.name }, () => beginJournal(course, student, timeOf(0)));
}

export interface Submission {
  readonly take: string;
  readonly verdict?: Verdict;
  readonly at?: string;
}

/** Plays a take to the rung the student is on in the first drill that is open, and records what is decided. */
export function submit(
  store: Store,
  student: string,
  { take, verdict = "within", at = timeOf(60) }: Submission,
): Promise<Decision> {
  return record(store, keyOf(student), (journal) => {
    const standing = journal!.standing!;
    const drill = standing.drills.find(({ state }) => state === "open")?.drill ?? "half-bar";
    const rung = drillStanding(standing, drill)!.rung!;
    return decide(COURSE, standing, findingOf(take, drill, rung, verdict), at);
  });
}

export async function all<T>(values: AsyncIterable<T>): Promise<T[]> {
  const list: T[] = [];
  for await (const value of values) list.push(value);
  return list;
}

/** The takes counted in a journal. */
export function takesIn(events: readonly JournalEvent[]): readonly string[] {
  return events.flatMap((event) => (event.kind === "take assessed" ? [event.take] : []));
}

/** Tables that version 1 did not have: a store of that version is made of one of now. */
export const SINCE_VERSION_1: readonly string[] = [
  "leeway_learnt",
  "leeway_summaries",
  "leeway_rungs",
  "leeway_keys",
  "leeway_invitations",
  "leeway_members",
  "leeway_classes",
  "leeway_people",
  "leeway_set_aside",
  "leeway_courses",
];
