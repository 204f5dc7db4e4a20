import type { Problem } from "../../base/index.js";
import { findJournal, type KeptCourses, keptCourses } from "../../practice/index.js";
import type { Standing } from "../../schema/index.js";
import type { Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, type Outcome, printJson, type Setting, tellCautions, tellProblems } from "../outcome.js";
import { standingText } from "../output/standingText.js";
import { outcomeOf, type StoreOptions, storeOption, withStore } from "../store/openStore.js";

export interface StandingOptions extends StoreOptions {
  /** Name of a course. */
  readonly course?: string;
}

/** Adds `standing` to the program. */
export function standingCommand(command: AddCommand, act: Act): void {
  storeOption(command("standing", "where students are in their drills"))
    .argument("[STUDENT...]", "everybody when left out")
    .option("--course <NAME>", "only in this course")
    .action((students: readonly string[], options: StandingOptions) =>
      act((setting) => standings(setting, students, options)),
    );
}

/** `leeway standing [STUDENT...]`: the standings of the named students, or of all. */
function standings(setting: Setting, students: readonly string[], options: StandingOptions): Promise<Outcome> {
  return withStore(setting, { ...options, create: false }, (store) =>
    students.length > 0 ? ofThese(setting, store, { students, ...options }) : ofAll(setting, store, options.course),
  );
}

async function ofThese(
  setting: Setting,
  store: Store,
  { students, course }: { readonly students: readonly string[]; readonly course?: string },
): Promise<Outcome> {
  const problems: Problem[] = [];
  const courses = keptCourses(store);
  for (const student of students) {
    const journal = await findJournal(store, student, course);
    if (journal.ok) await tell(setting, courses, journal.value.standing);
    else if (setting.json) printJson(setting, { student, problems: journal.problems });
    else tellProblems(setting, journal.problems);
    if (!journal.ok) problems.push(...journal.problems);
  }
  if (problems.length < students.length) tellCautions(setting);
  return outcomeOf(problems);
}

/** Tells a standing in the language of its course. */
async function tell(setting: Setting, courses: KeptCourses, standing: Standing): Promise<void> {
  if (setting.json) {
    printJson(setting, standing);
    return;
  }
  const course = await courses.find(standing.curriculum, standing.edition);
  const { words } = course === undefined ? setting : await setting.inLanguageOf(course);
  setting.terminal.print(standingText(standing, words));
}

async function ofAll(setting: Setting, store: Store, course: string | undefined): Promise<Outcome> {
  const courses = keptCourses(store);
  for await (const entry of store.journals()) {
    if (course !== undefined && entry.curriculum !== course) continue;
    const standing = (await store.open(entry))?.standing;
    if (standing !== undefined) await tell(setting, courses, standing);
  }
  tellCautions(setting);
  return DONE;
}
