import type { Problem } from "../../base/index.js";
import { verifyJournals } from "../../practice/index.js";
import type { JournalEntry, Store } from "../../store/index.js";
import type { Words } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, misuse, type Outcome, printJson, type Setting, tellProblems } from "../outcome.js";
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
      const verified = { store: store.place, journals: entries.length, events };
      setting.terminal.print(`${plain(verifiedText(verified, { problems, repaired }, setting.words))}\n`);
    }
    return outcomeOf(problems);
  });
}

function verifiedText(
  { store, journals, events }: { readonly store: string; readonly journals: number; readonly events: number },
  { problems, repaired }: { readonly problems: readonly Problem[]; readonly repaired: Repaired | undefined },
  { say }: Words,
): string {
  const errors = problems.filter(({ severity }) => severity === "error").length;
  const compared = say(problems.length === 0 ? "cli.all-well" : "cli.all-well-so-far");
  const said = {
    store,
    journals: say("cli.journals", { count: journals }),
    events: say("cli.events", { count: events }),
    found: errors === 0 ? compared : say("cli.problems", { count: problems.length }),
  };
  if (repaired === undefined) return say("cli.verified", said);
  const aside = say("cli.events", { count: repaired.setAside });
  return say("cli.verified-repaired", { ...said, repaired: String(repaired.repaired), aside });
}

interface Repaired {
  readonly repaired: number;
  readonly setAside: number;
}

/** Repairs the damaged journals. */
async function repairAll(store: Store, entries: readonly JournalEntry[]): Promise<Repaired> {
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
    const asked = { student, yes: "--yes", export: "journal export" };
    return misuse(setting, setting.words.say("cli.erase-confirm", asked));
  }
  return withStore(setting, { ...options, create: false }, async (store) => {
    const erased = await store.erase(student);
    if (setting.json) printJson(setting, { student, ...erased });
    else {
      const { print } = setting.terminal;
      const { say, word } = setting.words;
      const journals = say("cli.journals", { count: erased.journals });
      print(
        `${plain(say("cli.erased", { student, journals, events: say("cli.events", { count: erased.events }) }))}\n`,
      );
      for (const [i, place] of erased.elsewhere.entries())
        print(`  ${plain(say("cli.out-of-reach", { place: word(erased.elsewhereMessages[i], place) }))}\n`);
    }
    return DONE;
  });
}
