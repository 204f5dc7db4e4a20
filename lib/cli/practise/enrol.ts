import type { Problem, Result } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { enrol, keptCourse, studentNameProblems, takeOver } from "../../practice/index.js";
import type { EditionEffect } from "../../progress/index.js";
import type { Standing } from "../../schema/index.js";
import type { Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { readCourseText } from "../input/courseFile.js";
import { type TimeOptions, timeFor } from "../options/optionValues.js";
import { DONE, type Outcome, printJson, refuse, type Setting, tellCautions } from "../outcome.js";
import { effectText } from "../output/effectText.js";
import { plain } from "../output/printableText.js";
import { nextText } from "../output/standingText.js";
import { keepCourse } from "../store/keepCourse.js";
import { type StoreOptions, storeOption, withStore } from "../store/openStore.js";

export interface EnrolmentOptions extends StoreOptions, TimeOptions {}

/** Adds `enrol` to the program. */
export function enrolCommand(command: AddCommand, act: Act): void {
  storeOption(command("enrol", "begin a course for students, or take them over to its new edition"))
    .argument("<FILE>")
    .argument("<STUDENT...>")
    .option("--at <TIME>", "the time of enrolment (RFC 3339); now when left out")
    .action((file: string, students: readonly string[], options: EnrolmentOptions) =>
      act((setting) => enrolment(setting, [file, ...students], options)),
    );
}

/** `leeway enrol FILE STUDENT...`: enrols each student; students of the course go over to this edition. */
function enrolment(
  setting: Setting,
  [file, ...students]: readonly [string, ...string[]],
  options: EnrolmentOptions,
): Promise<Outcome> | Outcome {
  const at = timeFor(setting, options);
  if (typeof at === "number") return at;
  const read = readCourseText(file, setting.sources);
  if (!read.ok) return refuse(setting, read.problems);
  const unusable = students.flatMap(studentNameProblems);
  if (unusable.length > 0) return refuse(setting, unusable);
  return withStore(setting, { ...options, create: true }, async (store) => {
    await keepCourse(setting, store, read.value.text);
    const problems: Problem[] = [];
    for (const student of students)
      problems.push(...(await enrolOne(setting, store, { course: read.value.course, student, at })));
    if (problems.length < students.length) tellCautions(setting);
    return problems.length > 0 ? refuse(setting, problems) : DONE;
  });
}

interface Enrolling {
  readonly course: Curriculum;
  readonly student: string;
  readonly at: string;
}

async function enrolOne(
  setting: Setting,
  store: Store,
  { course, student, at }: Enrolling,
): Promise<readonly Problem[]> {
  const enrolled = await enrol(store, student, { course, at });
  if (!enrolled.ok) return enrolled.problems;
  const taken = enrolled.value.known ? await takenOver(store, enrolled.value.standing, { course, at }) : undefined;
  if (taken?.ok === false) return taken.problems;
  const { events, standing } = taken?.value ?? enrolled.value;
  const what = taken === undefined ? "enrolled" : events.length > 0 ? "edition changed" : "enrolled already";
  if (setting.json) {
    printJson(setting, { student, curriculum: course.name, edition: standing.edition, outcome: what, events });
    return [];
  }
  const { words } = setting;
  const names = { student, course: course.name, edition: standing.edition };
  const said =
    what === "edition changed"
      ? words.say("cli.taken-over", { ...names, from: taken!.value.from, to: course.edition })
      : words.say("cli.enrolled", { ...names, outcome: what === "enrolled" ? "enrolled" : "already" });
  setting.terminal.print(`${plain(said)}\n`);
  if (taken !== undefined) setting.terminal.print(effectText(taken.value, words));
  setting.terminal.print(nextText(standing, words));
  return [];
}

async function takenOver(
  store: Store,
  standing: Standing,
  { course, at }: Omit<Enrolling, "student">,
): Promise<Result<EditionEffect>> {
  const before = await keptCourse(store, standing);
  return takeOver(store, standing.student, { course, at, ...(before.ok ? { before: before.value } : {}) });
}
