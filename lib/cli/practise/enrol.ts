import {
  type Curriculum,
  type EditionEffect,
  type Entries,
  effectOfEdition,
  enrol,
  LONGEST_NAME,
  type Problem,
  problemsOf,
} from "../../index.js";
import { record, type Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import type { Act, AddCommand } from "../command.js";
import { readCourseText } from "../input/courseFile.js";
import { type TimeOptions, timeFor } from "../options/optionValues.js";
import { DONE, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { effectText } from "../output/effectText.js";
import { plain } from "../output/printableText.js";
import { nextText } from "../output/standingText.js";
import { keepCourse, openKeptCourse } from "../store/keptCourse.js";
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
  const unusable = students.flatMap(nameProblems);
  if (unusable.length > 0) return refuse(setting, unusable);
  return withStore(setting, { ...options, create: true }, async (store) => {
    await keepCourse(setting, store, read.value.text);
    for (const student of students) await enrolOne(setting, store, { course: read.value.course, student, at });
    return DONE;
  });
}

const problem = problemsOf(fileCodes);

function nameProblems(student: string): readonly Problem[] {
  if (student !== "" && student.length <= LONGEST_NAME) return [];
  const message = `the name of a student must have 1 to ${LONGEST_NAME} characters, found ${student.length}`;
  return [problem("STUDENT_NAME_LENGTH", message, {}, "a pseudonym is enough")];
}

interface Enrolling {
  readonly course: Curriculum;
  readonly student: string;
  readonly at: string;
}

async function enrolOne(setting: Setting, store: Store, { course, student, at }: Enrolling): Promise<void> {
  const taken = await takeIn(store, { course, student, at });
  const { events, standing, from } = taken;
  const what = from === undefined ? "enrolled" : events.length > 0 ? "edition changed" : "enrolled already";
  if (setting.json) {
    printJson(setting, { student, curriculum: course.name, edition: standing.edition, outcome: what, events });
    return;
  }
  const moved = what === "edition changed" ? `${what} from ${plain(from!)} to ${plain(course.edition)}` : what;
  setting.terminal.print(`${plain(student)}  ${moved} in ${plain(course.name)} ${plain(standing.edition)}\n`);
  if ("drills" in taken) setting.terminal.print(effectText(taken));
  setting.terminal.print(nextText(standing));
}

/** Enrols a student, or moves an enrolled one to this edition; `from` is the edition before. */
async function takeIn(
  store: Store,
  { course, student, at }: Enrolling,
): Promise<(Entries & { readonly from?: never }) | EditionEffect> {
  const key = { student, curriculum: course.name };
  const standing = (await store.open(key))?.standing;
  const before = standing === undefined ? undefined : await openKeptCourse(store, standing);
  return record(store, key, (journal) => {
    if (journal?.standing === undefined) return enrol(course, student, at);
    const known = before?.ok && before.value.edition === journal.standing.edition ? { before: before.value } : {};
    return effectOfEdition(course, journal.standing, { at, ...known });
  });
}
