import fc from "fast-check";
import { random } from "../../lib/base/index.js";
import type { Curriculum } from "../../lib/curriculum/index.js";
import type { JournalOptions, OpenReport } from "../../lib/report/index.js";
import { openReport } from "../../lib/report/index.js";
import type { JournalEvent, Report, TakeAssessed } from "../../lib/schema/index.js";
import { EDITIONS, happening, historyOf } from "../progress/history.js";

/** A student's journal of some hundred happenings, its takes with silences: some kept one by one, some as older journals have them. */
export interface Pupil {
  readonly student: string;
  readonly events: readonly JournalEvent[];
}

const LENGTHS = ["1/2 bar", "1 bar", "2 bars", "3 beats"];

/** Silences told of a take, chance by its name: a journal tells the same however often it is read. */
function withSilences(event: TakeAssessed, student: string): TakeAssessed {
  const chance = random(`${student}/${event.take}`);
  const drift = (): number => Math.round(chance.normal() * 400) / 10;
  const rows = Array.from({ length: 3 }, () =>
    chance.uniform() < 0.1 ? ([null, null, null, null] as const) : ([drift(), 9, drift() / 20, drift()] as const),
  );
  const kind = chance.uniform();
  if (kind < 0.2) return event;
  if (kind < 0.4) return { ...event, measured: { driftMs: drift(), driftPercent: drift() / 20, standardErrorMs: 8 } };
  return { ...event, silences: rows, ...(chance.uniform() < 0.1 ? { reasons: ["TWO_PAIRINGS"] } : {}) };
}

export function pupilOf(student: string, happenings: Parameters<typeof historyOf>[0]): Pupil {
  const events = historyOf(happenings).journal.map((event) => ({ ...event, student }));
  return {
    student,
    events: events.map((each) => (each.kind === "take assessed" ? withSilences(each, student) : each)),
  };
}

const NAMES = ["tern", "gull", "avocet", "dunlin", "=1+1", "<b>knot</b>", "鴎", "ruff\u202e"];

/** One to four students of different names. */
export const classOf: fc.Arbitrary<readonly Pupil[]> = fc
  .uniqueArray(fc.constantFrom(...NAMES), { minLength: 1, maxLength: 4 })
  .chain((names) =>
    fc
      .tuple(...names.map(() => fc.array(happening, { minLength: 1, maxLength: 150, size: "max" })))
      .map((all) => all.map((happenings, i) => pupilOf(names[i]!, happenings))),
  );

const editionOf = (edition: string): Curriculum | undefined => EDITIONS.find((course) => course.edition === edition);

export const CURRICULUM: string = EDITIONS[0]!.name;

export function add(report: OpenReport, { student, events }: Pupil): void {
  report.add({ student, curriculum: CURRICULUM, events, courseOf: editionOf });
}

export function reportOf(pupils: readonly Pupil[], options: JournalOptions): Report {
  const report = openReport(options);
  for (const pupil of pupils) add(report, pupil);
  return report.close();
}

/** A take of one rung, told as an event. */
export function takeEvent(take: Partial<TakeAssessed> & Pick<TakeAssessed, "take">): TakeAssessed {
  return {
    version: 2,
    kind: "take assessed",
    id: `take:${take.take}`,
    turn: 2,
    at: "2026-03-02T17:30:00Z",
    student: "tern",
    curriculum: CURRICULUM,
    edition: "1.0.0",
    drill: "half-bar",
    rung: "dropout=1/2 bar,tempo=84",
    verdict: "within",
    ...take,
  };
}

export const aLength: fc.Arbitrary<string> = fc.constantFrom(...LENGTHS);
