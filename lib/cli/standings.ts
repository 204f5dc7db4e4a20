import type { Problem } from "../index.js";
import type { Store } from "../store/index.js";
import { openJournal } from "./openJournal.js";
import { DONE, type Outcome, printJson, type Setting, tellProblems } from "./outcome.js";
import { standingText } from "./standingText.js";
import { outcomeOf, type StoreOptions, withStore } from "./storePlace.js";

export interface StandingOptions extends StoreOptions {
  /** Name of a course. */
  readonly course?: string;
}

/** `leeway standing [STUDENT...]`: where students are; everybody when none is named. */
export function standings(setting: Setting, students: readonly string[], options: StandingOptions): Promise<Outcome> {
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
  for (const student of students) {
    const journal = await openJournal(store, student, course);
    if (journal.ok && setting.json) printJson(setting, journal.value.standing);
    else if (journal.ok) setting.machine.print(standingText(journal.value.standing));
    else if (setting.json) printJson(setting, { student, problems: journal.problems });
    else tellProblems(setting, journal.problems);
    if (!journal.ok) problems.push(...journal.problems);
  }
  return outcomeOf(problems);
}

async function ofAll(setting: Setting, store: Store, course: string | undefined): Promise<Outcome> {
  for await (const entry of store.journals()) {
    if (course !== undefined && entry.curriculum !== course) continue;
    const standing = (await store.open(entry))?.standing;
    if (standing === undefined) continue;
    if (setting.json) printJson(setting, standing);
    else setting.machine.print(standingText(standing));
  }
  return DONE;
}
