import { type Cell, csvRow } from "../base/index.js";
import type { CourseReport, Report, StudentPlace } from "../schema/index.js";
import { stickingWords } from "./stickingWords.js";
import { ENGLISH, type ReportWords } from "./words.js";

/** A table of a report: one row for each student and open drill, or one row for each length of silence and week. */
export type ReportTable = "students" | "drift";

/**
 * A table of a report as CSV (RFC 4180: fields separated by commas, lines ended by CR LF, quotes doubled, a header line), UTF-8. A value that is not known is
 * empty; numbers have a decimal point. A student without an open drill has a row of their own.
 *
 * Texts a spreadsheet would take for a formula get an apostrophe before them: people give themselves names like "=1+1" (the usual advice of
 * the OWASP page "CSV Injection", from memory).
 *
 * @example
 * [...reportCsv(report, "students")].join("").startsWith("student,") // true
 */
export function* reportCsv(report: Report, table: ReportTable, words: ReportWords = ENGLISH): Generator<string> {
  if (table === "drift") yield* driftRows(report);
  else yield* studentRows(report, words);
}

function* studentRows({ students }: Report, words: ReportWords): Generator<string> {
  yield csvRow(
    "student,course,edition,drill,rung,rung_number,rungs,since,within,beyond,unclear,stuck_after,stuck,stuck_since,stuck_takes,stuck_on,last_take,quiet,drills_complete".split(
      ",",
    ),
  );
  for (const { student, courses } of students) {
    for (const course of courses) {
      for (const place of course.places.length === 0 ? [undefined] : course.places)
        yield csvRow([student, course.curriculum, course.edition, ...placeCells(place, words), ...courseCells(course)]);
    }
  }
}

function placeCells(place: StudentPlace | undefined, words: ReportWords): readonly Cell[] {
  if (place === undefined) return new Array<Cell>(13).fill(undefined);
  const { drill, rung, number, rungs, since, takes, stuckAfter, stall } = place;
  const known = typeof stuckAfter === "number";
  const tried = stall && stall.takes.within + stall.takes.beyond + stall.takes.unclear;
  return [
    ...[drill, rung, number, rungs, since, takes.within, takes.beyond, takes.unclear],
    ...[known ? stuckAfter : undefined, known ? yesOrNo(stall !== undefined) : undefined],
    ...[stall?.since, tried, stall?.on.map((each) => stickingWords(each, words)).join("; ")],
  ];
}

function courseCells({ lastTake, quiet, complete }: CourseReport): readonly Cell[] {
  return [lastTake, yesOrNo(quiet), complete.length];
}

function* driftRows({ drift }: Report): Generator<string> {
  // The names say which way is positive.
  const figures = (of: string): readonly string[] => ["median", "low", "high"].map((name) => `${of}_${name}`);
  const names = [
    "silence",
    "told",
    "week",
    "takes",
    "measured",
    "unmeasured",
    ...figures("drift_late_ms"),
    ...figures("drift_slow_percent"),
    "landings",
    ...figures("landing_late_ms"),
  ];
  yield csvRow(names);
  for (const { length, told, weeks } of drift) {
    for (const { week, takes, measured, unmeasured, driftMs, driftPercent, landings } of weeks) {
      const [ms, percent, landing] = [driftMs, driftPercent, landings?.ms].map((each): Cell[] => [
        ...[each?.median, each?.low, each?.high],
      ]);
      const landed = landings?.measured ?? 0;
      yield csvRow([length, told, week, takes, measured, unmeasured, ...ms!, ...percent!, landed, ...landing!]);
    }
  }
}

function yesOrNo(yes: boolean): string {
  return yes ? "yes" : "no";
}
