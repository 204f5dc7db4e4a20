import { csvRow } from "../../base/index.js";
import type { RehearsalQuantiles, RehearsalReport } from "../../schema/index.js";

/** A table of a rehearsal: one row for each kind of student, and drill by drill; or one row for each rung. */
export type RehearsalTable = "students" | "rungs";

/**
 * A table of a rehearsal as CSV (RFC 4180), with a header line. What nobody, or not enough students, came to is empty; numbers have a decimal point; of each kind of student the first
 * row, without a drill, is about the whole course.
 *
 * @example
 * const ready = prepareRehearsal(course, { drills: [] });
 * const part = rehearsePart([ready], { from: 0, count: 3 });
 * const report = rehearsalReport(part, frameOf(ready.course), reportTerms(ready, "drawn"));
 * [...rehearsalCsv(report, "rungs")].length // 1
 */
export function* rehearsalCsv(report: RehearsalReport, table: RehearsalTable): Generator<string> {
  yield* table === "students" ? studentRows(report) : rungRows(report);
}

function* studentRows({ results }: RehearsalReport): Generator<string> {
  yield csvRow([
    ...["kind", "drill", "students", "completed"],
    ...["takes_low", "takes_median", "takes_high", "weeks_low", "weeks_median", "weeks_high"],
    ...["takes_played", "minutes", "unclear", "let_on_unready", "let_on", "held_able", "able_stays"],
  ]);
  for (const each of results.kinds) {
    const { kind, students, finished, takesPlayed, minutes, unclear, letOnUnready, heldAble } = each;
    yield csvRow([
      ...[kind, undefined, students, finished, ...cells(each.takes), ...cells(each.weeks)],
      ...[takesPlayed, minutes, unclear, letOnUnready.times, letOnUnready.of, heldAble.times, heldAble.of],
    ]);
    for (const { drill, begun, completed, takes, weeks } of each.drills)
      yield csvRow([kind, drill, begun, completed, ...cells(takes), ...cells(weeks), ...new Array<undefined>(7)]);
  }
}

function* rungRows({ results }: RehearsalReport): Generator<string> {
  yield csvRow([
    ...[
      "drill",
      "number",
      "rung",
      "reached",
      "clean_on_arrival",
      "clean_steadiest",
      "clean_least_steady",
      "harder_log_odds",
    ],
    ...["takes_low", "takes_median", "takes_high", "within", "unclear", "drift", "landing", "steadiness", "notes"],
    ...["went_back", "stayed", "stuck", "long", "let_on_unready", "let_on", "held_able", "able_stays", "teaches"],
  ]);
  for (const { drill, rungs } of results.drills)
    for (const rung of rungs) {
      const { outcomes, arrival, letOn, held } = rung;
      const clean = [0, 1, 4].map((kind) => (arrival[kind]!.reached === 0 ? undefined : arrival[kind]!.clean));
      yield csvRow([
        ...[drill, rung.number, rung.rung, rung.reached, ...clean, rung.harder, ...cells(rung.takes)],
        ...[outcomes.within, outcomes.unclear, outcomes.drift, outcomes.landing, outcomes.steadiness, outcomes.notes],
        ...[rung.wentBack, rung.stayed, rung.stuck, rung.long, letOn.times, letOn.of, held.times, held.of],
        rung.teaches ? "yes" : "no",
      ]);
    }
}

function cells({ low, median, high }: RehearsalQuantiles): readonly (number | undefined)[] {
  return [low, median, high];
}
