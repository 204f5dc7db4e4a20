import type { Problem } from "../../base/index.js";
import { verifyJournals } from "../../practice/index.js";
import type { JournalEntry, Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, MISUSE, type Outcome, printJson, type Setting, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { outcomeOf, type StoreOptions, storeOption, withStore } from "../store/openStore.js";

export interface VerifyOptions extends StoreOptions {
  readonly repair?: true;
}

/** Adds `journal verify` and `journal erase` to the program. */
export function careCommands(command: AddCommand, act: Act): void {
  storeOption(
    command("verify", "compare every event and standing with what was written, and every decision with the course"),
  )
    .argument("[STUDENT...]", "the whole store when left out")
    .option("--repair", "work standings and counts out anew; set unreadable events aside")
    .action((students: readonly string[], options: VerifyOptions) =>
      act((setting) => journalVerify(setting, students, options)),
    );
  storeOption(command("erase", "erase everything about a student for good"))
    .argument("<STUDENT>")
    .option("--yes", "that this is meant")
    .action((student: string, options: ErasureOptions) => act((setting) => journalErase(setting, student, options)));
}

/** `leeway journal verify [STUDENT...]`: compares digests, counts and standing with the events, and decisions with the editions kept; `--repair` computes them anew. */
function journalVerify(setting: Setting, students: readonly string[], options: VerifyOptions): Promise<Outcome> {
  return withStore(setting, { ...options, create: false }, async (store) => {
    const entries: JournalEntry[] = [];
    for (const student of students.length === 0 ? [undefined] : students)
      for await (const entry of store.journals(student === undefined ? {} : { student })) entries.push(entry);
    const repaired = options.repair === true ? await repairAll(store, entries) : undefined;
    const problems: Problem[] = [];
    if (students.length === 0) for await (const each of verifyJournals(store)) problems.push(each);
    else for (const entry of entries) for await (const each of verifyJournals(store, entry)) problems.push(each);
    const events = entries.reduce((sum, entry) => sum + entry.events, 0);
    if (setting.json)
      printJson(setting, { store: store.place, journals: entries.length, events, ...(repaired ?? {}), problems });
    else {
      tellProblems(setting, problems);
      const mended =
        repaired === undefined ? "" : `; ${repaired.repaired} repaired, ${repaired.setAside} events set aside`;
      const errors = problems.filter(({ severity }) => severity === "error").length;
      const compared = problems.length === 0 ? "all is well" : "all is well as far as it could be compared";
      const found = errors === 0 ? compared : `${problems.length} problems`;
      setting.terminal.print(
        `${plain(store.place)}: ${entries.length} journals, ${events} events${mended}: ${found}\n`,
      );
    }
    return outcomeOf(problems);
  });
}

/** Repairs the damaged journals. */
async function repairAll(
  store: Store,
  entries: readonly JournalEntry[],
): Promise<{ readonly repaired: number; readonly setAside: number }> {
  let [repaired, setAside] = [0, 0];
  for (const entry of entries) {
    let isSound = true;
    for await (const _problem of store.verify(entry)) isSound = false;
    if (isSound) continue;
    repaired++;
    setAside += await store.repair(entry);
  }
  return { repaired, setAside };
}

export interface ErasureOptions extends StoreOptions {
  readonly yes?: true;
}

/** `leeway journal erase STUDENT --yes`: erases everything about a student, also traces in the files of the store. */
function journalErase(setting: Setting, student: string, options: ErasureOptions): Promise<Outcome> | Outcome {
  if (options.yes !== true) {
    setting.terminal.tell(
      `leeway: this erases everything about ${plain(student)} for good; say --yes if that is meant (journal export keeps a copy)\n`,
    );
    return MISUSE;
  }
  return withStore(setting, { ...options, create: false }, async (store) => {
    const erased = await store.erase(student);
    if (setting.json) printJson(setting, { student, ...erased });
    else {
      setting.terminal.print(`${plain(student)}: ${erased.events} events in ${erased.journals} journals erased\n`);
      for (const place of erased.elsewhere) setting.terminal.print(`  out of reach: ${plain(place)}\n`);
    }
    return DONE;
  });
}
