import { CAUTIONS } from "../../base/index.js";
import { driftWords, placeWords, stickingWords, tallyWords } from "../../report/index.js";
import type { CourseReport, LengthDrift, Report, StudentPlace } from "../../schema/index.js";
import { plain } from "../output/printableText.js";
import { table } from "../output/textTable.js";

/** A report as text, part by part. */
export function* reportText(report: Report): Generator<string> {
  const { students, at, since, drift } = report;
  const counted = since === undefined ? "" : `, takes counted since ${since}`;
  yield `${students.length} ${students.length === 1 ? "student" : "students"}, ${plain(at)}${counted}\n`;
  if (students.length === 0) return;
  yield* coursesText(report);
  yield "\nwhere\n";
  yield table(["student", "drill", "rung", "since", "takes there", "last take", "status"], rowsOf(report));
  yield* stuckText(report);
  yield "\ndrift in silences: median (middle half); early and fast is rushing, late and slow is dragging\n";
  if (drift.length === 0) yield "  no take with a silence yet\n";
  else yield table(["silence", "week of", " takes", " measured", " not counted", "drift"], drift.flatMap(driftRows));
  yield `\n${CAUTIONS.join("\n")}\n`;
}

function* coursesText({ courses }: Report): Generator<string> {
  for (const { curriculum, students, stuck, quiet, takes } of courses) {
    const idle = quiet === 0 ? "" : `, ${quiet} quiet for three weeks`;
    const word = students === 1 ? "student" : "students";
    yield `  ${plain(curriculum)}: ${students} ${word}, ${stuck} stuck${idle}; takes: ${tallyWords(takes)}\n`;
  }
}

function rowsOf({ students, courses }: Report): readonly (readonly string[])[] {
  return students.flatMap(({ student, courses: own }) =>
    own.flatMap((course) => {
      const name = courses.length === 1 ? student : `${student} (${course.curriculum})`;
      const places = course.places.length === 0 ? [undefined] : course.places;
      return places.map((place) => [
        plain(name),
        ...whereCells(course, place),
        course.lastTake === undefined ? "none" : dateOf(course.lastTake),
        adviceText(course, place),
      ]);
    }),
  );
}

function whereCells(course: CourseReport, place: StudentPlace | undefined): readonly string[] {
  if (place !== undefined)
    return [plain(place.drill), plain(placeText(place)), dateOf(place.since), tallyWords(place.takes)];
  if (course.edition === undefined) return ["the enrolment has not arrived", "", "", ""];
  return [course.complete.length === 0 ? "no drill is open" : "all complete", "", "", ""];
}

/** The rung by its number; the settings are in the part about stuck students. */
function placeText({ rung, number, rungs }: StudentPlace): string {
  return number === undefined || rungs === undefined ? placeWords({ rung }) : `${number} of ${rungs}`;
}

function adviceText({ quiet }: CourseReport, place: StudentPlace | undefined): string {
  return [...(place?.stall === undefined ? [] : ["stuck"]), ...(quiet ? ["quiet"] : [])].join(", ");
}

/** Most causes shown for a stuck student: our choice; later figures rest on single takes. */
const MOST_SAID = 3;

function* stuckText({ students }: Report): Generator<string> {
  yield "\nstuck\n";
  let nobody = true;
  for (const { student, courses } of students) {
    for (const place of courses.flatMap(({ places }) => places)) {
      if (place.stall === undefined) continue;
      nobody = false;
      yield `  ${plain(student)} at ${plain(place.drill)}, ${plain(placeWords(place))}\n`;
      yield `    since ${dateOf(place.stall.since)}: ${tallyWords(place.stall.takes)}, and no new rung\n`;
      const { on } = place.stall;
      for (const each of on.slice(0, MOST_SAID)) yield `    ${plain(stickingWords(each))}\n`;
      const others = on.slice(MOST_SAID).reduce((sum, { takes }) => sum + takes, 0);
      if (others > 0) yield `    other figures: ${others} ${others === 1 ? "take" : "takes"}\n`;
    }
  }
  if (nobody) yield "  nobody\n";
}

function driftRows(row: LengthDrift): readonly (readonly string[])[] {
  const length = `${row.length ?? "unknown"}${row.told === "each silence" ? "" : ", largest of a take"}`;
  return row.weeks.map((week, i) => [
    i === 0 ? plain(length) : "",
    week.week,
    `${week.takes}`,
    `${week.measured}`,
    `${week.unmeasured}`,
    driftWords(week),
  ]);
}

function dateOf(at: string): string {
  return plain(at.slice(0, 10));
}
