import {
  driftWords,
  ENGLISH,
  landingWords,
  placeWords,
  type ReportWords,
  stickingWords,
  tallyWords,
} from "../../report/index.js";
import type { CourseReport, LengthDrift, Report, StudentPlace } from "../../schema/index.js";
import { cautionsIn } from "../../words/index.js";
import { plain } from "../output/printableText.js";
import { table } from "../output/textTable.js";

/** A report as text, part by part. */
export function* reportText(report: Report, words: ReportWords = ENGLISH): Generator<string> {
  const { say } = words;
  const { students, at, since, drift } = report;
  const head = { students: students.length, at: plain(at) };
  yield `${since === undefined ? say("report.head", head) : say("report.head-since", { ...head, since })}\n`;
  if (students.length === 0) return;
  yield* coursesText(report, words);
  yield `\n${say("report.where")}\n`;
  const places = ["student", "drill", "rung", "since", "takes-there", "last-take", "status"] as const;
  yield table(
    places.map((of) => say("report.column", { of })),
    rowsOf(report, words),
  );
  yield* stuckText(report, words);
  yield `\n${say("report.drift-heading")}\n`;
  if (drift.length === 0) yield `  ${say("report.no-silence")}\n`;
  else
    yield table(
      DRIFT_COLUMNS.map((of) => `${FIGURES.includes(of) ? " " : ""}${say("report.column", { of })}`),
      drift.flatMap((row) => driftRows(row, words)),
    );
  yield `\n${cautionsIn(words).join("\n")}\n`;
}

const DRIFT_COLUMNS = ["silence", "week", "takes", "measured", "not-counted", "drift", "landing"] as const;
/** Columns of figures: a blank before the heading has the table set them to the right. */
const FIGURES: readonly (typeof DRIFT_COLUMNS)[number][] = ["takes", "measured", "not-counted"];

function* coursesText({ courses }: Report, words: ReportWords): Generator<string> {
  for (const { curriculum, students, stuck, quiet, takes } of courses) {
    const counts = { course: plain(curriculum), students, stuck, takes: tallyWords(takes, words) };
    const said =
      quiet === 0 ? words.say("report.course", counts) : words.say("report.course-with-quiet", { ...counts, quiet });
    yield `  ${said}\n`;
  }
}

function rowsOf({ students, courses }: Report, words: ReportWords): readonly (readonly string[])[] {
  return students.flatMap(({ student, courses: own }) =>
    own.flatMap((course) => {
      const named = { student, course: course.curriculum };
      const name = courses.length === 1 ? student : words.say("report.in-course", named);
      const places = course.places.length === 0 ? [undefined] : course.places;
      return places.map((place) => [
        plain(name),
        ...whereCells(course, place, words),
        course.lastTake === undefined ? words.say("report.none") : dateOf(course.lastTake),
        statusText(course, place, words),
      ]);
    }),
  );
}

function whereCells(course: CourseReport, place: StudentPlace | undefined, words: ReportWords): readonly string[] {
  if (place !== undefined)
    return [plain(place.drill), plain(placeText(place, words)), dateOf(place.since), tallyWords(place.takes, words)];
  if (course.edition === undefined) return [words.say("report.not-arrived"), "", "", ""];
  return [words.say(course.complete.length === 0 ? "report.none-open" : "report.all-complete"), "", "", ""];
}

/** The rung by its number; the settings are in the part about stuck students. */
function placeText({ rung, number, rungs }: StudentPlace, words: ReportWords): string {
  if (number === undefined || rungs === undefined) return placeWords({ rung }, words);
  return words.say("report.number-of", { number: `${number}`, rungs: `${rungs}` });
}

function statusText({ quiet }: CourseReport, place: StudentPlace | undefined, { say }: ReportWords): string {
  const isStuck = place?.stall !== undefined;
  if (!isStuck && !quiet) return "";
  return say("report.status", { status: isStuck ? (quiet ? "both" : "stuck") : "quiet" });
}

/** Most causes shown for a stuck student: our choice; later figures rest on single takes. */
const MOST_SAID = 3;

function* stuckText({ students }: Report, words: ReportWords): Generator<string> {
  const { say } = words;
  yield `\n${say("report.stuck")}\n`;
  let nobody = true;
  for (const { student, courses } of students) {
    for (const place of courses.flatMap(({ places }) => places)) {
      if (place.stall === undefined) continue;
      nobody = false;
      yield `  ${plain(say("report.stuck-at", { student, drill: place.drill, place: placeWords(place, words) }))}\n`;
      const since = dateOf(place.stall.since);
      yield `    ${say("report.stuck-since", { since, takes: tallyWords(place.stall.takes, words) })}\n`;
      const { on } = place.stall;
      for (const each of on.slice(0, MOST_SAID)) yield `    ${plain(stickingWords(each, words))}\n`;
      const others = on.slice(MOST_SAID).reduce((sum, { takes }) => sum + takes, 0);
      if (others > 0) yield `    ${say("report.other-figures", { takes: say("report.takes", { takes: others }) })}\n`;
    }
  }
  if (nobody) yield `  ${say("report.nobody")}\n`;
}

function driftRows(row: LengthDrift, words: ReportWords): readonly (readonly string[])[] {
  const length = row.length ?? words.say("report.unknown");
  const told =
    row.told === "each silence"
      ? words.say("report.length", { told: "each-silence", length })
      : words.say("report.largest", { length });
  return row.weeks.map((week, i) => [
    i === 0 ? plain(told) : "",
    week.week,
    `${week.takes}`,
    `${week.measured}`,
    `${week.unmeasured}`,
    driftWords(week, words),
    landingWords(week, words),
  ]);
}

function dateOf(at: string): string {
  return plain(at.slice(0, 10));
}
