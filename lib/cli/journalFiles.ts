import { failure, type Result, readJournal } from "../index.js";
import { exportJournals, importJournals } from "../store/index.js";
import { readText, textOf, tooLarge } from "./files.js";
import { DONE, type Outcome, printJson, refuse, type Setting, tellProblems } from "./outcome.js";
import { openOut, unwritable } from "./outFile.js";
import { plain } from "./plain.js";
import { outcomeOf, type StoreOptions, withStore } from "./storePlace.js";

/** Bytes of a file of journals; our choice: about half a million events. */
const IMPORT_LIMIT = 500_000_000;

export interface ExportOptions extends StoreOptions {
  readonly out?: string;
}

/** `leeway journal export [STUDENT...]`: events as JSON Lines, on standard output or in a file that is complete once it is there. */
export function journalExport(setting: Setting, students: readonly string[], options: ExportOptions): Promise<Outcome> {
  return withStore(setting, { ...options, create: false }, async (store) => {
    const target = options.out === undefined ? undefined : openOut(options.out);
    if (target?.ok === false) return refuse(setting, target.problems);
    const wanted = students.length === 0 ? [undefined] : students;
    try {
      for (const student of wanted) {
        for await (const line of exportJournals(store, student === undefined ? {} : { student })) {
          if (target === undefined) setting.machine.print(line);
          else target.value.write(line);
        }
      }
      target?.value.finish();
    } catch (error) {
      target?.value.abandon();
      if (error instanceof Error && "code" in error && !("problem" in error))
        return refuse(setting, [unwritable(options.out!, error)]);
      throw error;
    }
    return DONE;
  });
}

/** `leeway journal import FILE`: events of any number of journals; what is wrong with single ones is told, and the rest is kept. */
export function journalImport(setting: Setting, file: string, options: StoreOptions): Promise<Outcome> | Outcome {
  const name = file === "-" ? "standard input" : file;
  const text = file === "-" ? inputText(setting, name) : readText(file, IMPORT_LIMIT);
  if (!text.ok) return refuse(setting, text.problems);
  const { events, lines, problems: unread } = readJournal(text.value);
  return withStore(setting, { ...options, create: true }, async (store) => {
    const imported = await importJournals(
      store,
      events.map((value, i) => ({ value, line: lines[i]! })),
    );
    const problems = [...unread, ...imported.problems]
      .sort((a, b) => a.where.line! - b.where.line!)
      .map((each) => ({ ...each, where: { file: name, ...each.where } }));
    const { added, known, journals } = imported;
    if (setting.json) printJson(setting, { file: name, added, known, journals, problems });
    else {
      tellProblems(setting, problems);
      const refused = problems.length === 0 ? "" : `, ${problems.length} refused`;
      setting.machine.print(`${plain(name)}: ${added} events added, ${known} known${refused}; ${journals} journals\n`);
    }
    return outcomeOf(problems);
  });
}

function inputText({ machine }: Setting, name: string): Result<string> {
  const bytes = machine.readInput(IMPORT_LIMIT);
  return bytes === undefined ? failure(tooLarge(name, IMPORT_LIMIT)) : textOf(bytes, name);
}
