import { type Curriculum, openCourse } from "../../../curriculum/index.js";
import type { JournalEvent, Report, Standing } from "../../../schema/index.js";
import { type Asked, ask, at, type Refusal } from "../../school/ask.js";
import type { EditionEffect, Listed, ListedStudent } from "../../school/model.js";

/** What the school keeps of a student in a course, as a teacher sees it. */
export interface StudentRecord {
  readonly student: ListedStudent;
  readonly report: Report;
  readonly standing: Standing;
  /** Names the standing: a change says which it rests on. */
  readonly tag: string | undefined;
  readonly events: readonly JournalEvent[];
  /** What the edition in use means for the student. */
  readonly effect: EditionEffect;
  /** The edition in use. */
  readonly course: Curriculum;
  /** The edition the student is in. */
  readonly own: Curriculum;
}

/** Reads all of it at once. */
export async function readRecord(
  className: string,
  student: string,
  course: string,
): Promise<{ readonly ok: true; readonly value: StudentRecord } | { readonly ok: false; readonly refusal: Refusal }> {
  const inCourse = (what: string): string => at("students", student, "courses", course, what);
  const [listed, report, standing, journal, effect, compiled] = await Promise.all([
    findStudent(className, student),
    ask<Report>(inCourse("report")),
    ask<Standing>(inCourse("standing")),
    ask<string>(inCourse("journal")),
    ask<EditionEffect>(inCourse("edition")),
    ask<unknown>(at("courses", course)),
  ]);
  if (!listed.ok) return listed;
  if (!report.ok) return report;
  if (!standing.ok) return standing;
  if (!journal.ok) return journal;
  if (!effect.ok) return effect;
  if (!compiled.ok) return compiled;
  const { from, to } = effect.value;
  const former = from === to ? compiled : await ask<unknown>(at("courses", course, "editions", from));
  const used = opened(compiled.value);
  return {
    ok: true,
    value: {
      student: listed.value,
      report: report.value,
      standing: standing.value,
      tag: standing.tag,
      events: journal.value
        .split("\n")
        .filter((line) => line !== "")
        .map((line) => JSON.parse(line) as JournalEvent),
      effect: effect.value,
      course: used,
      // An edition that is not kept any more: rungs are told by their settings then.
      own: former.ok ? opened(former.value) : used,
    },
  };
}

/** A student in the list of a class, which comes in pages. */
async function findStudent(className: string, name: string): Promise<Asked<ListedStudent>> {
  let after = "";
  for (;;) {
    const page = await ask<Listed<ListedStudent>>(`${at("classes", className, "students")}?limit=1000${after}`);
    if (!page.ok) return page;
    const value = page.value.items.find((each) => each.name === name);
    if (value !== undefined) return { ok: true, value, tag: undefined };
    const { next } = page.value;
    if (next === undefined)
      return { ok: false, refusal: { status: 404, code: "NOT_THERE", problems: [], wait: undefined } };
    after = `&after=${encodeURIComponent(next)}`;
  }
}

/** A course as the school sends it. Throws `Error` for anything else, which is a defect of the school. */
function opened(compiled: unknown): Curriculum {
  const course = openCourse(typeof compiled === "string" ? compiled : JSON.stringify(compiled));
  if (!course.ok) throw new Error(course.problems.map(({ message }) => message).join("; "));
  return course.value;
}
