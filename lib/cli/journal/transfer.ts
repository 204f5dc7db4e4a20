import { Option } from "commander";
import { readJournal } from "../../progress/index.js";
import type { Records } from "../../records/index.js";
import { exportJournals, importJournals, type Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { readArgument } from "../input/inputFile.js";
import { placeName, STANDARD_INPUT } from "../input/placeName.js";
import { DONE, MISUSE, type Outcome, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { openOut, unwritable } from "../output/outFile.js";
import { plain } from "../output/printableText.js";
import { outcomeOf, type StoreOptions, storeOption, withStore } from "../store/openStore.js";
import { type RecordExportOptions, recordLines, recordsAsked, type Tally, tellRecords } from "./learningRecords.js";

/** Most bytes of a file of journals; our choice: about half a million events. */
const IMPORT_LIMIT = 500_000_000;

export interface ExportOptions extends StoreOptions, RecordExportOptions {
  readonly out?: string;
  /** Format: events of the journals, or learning records made of them, one on a line or in one list. */
  readonly as?: "journal" | "xapi" | "xapi-list";
}

/** Adds `journal export` and `journal import` to the program. */
export function transferCommands(command: AddCommand, act: Act): void {
  storeOption(command("export", "events as JSON Lines, one journal after the other, or learning records (xAPI)"))
    .argument("[STUDENT...]", "everybody when left out")
    .addOption(
      new Option("--as <FORMAT>", "events, or xAPI 1.0.3 statements, one a line or as one list")
        .choices(["journal", "xapi", "xapi-list"])
        .default("journal"),
    )
    .option("--home <URL>", "xapi: the school's web address, to which accounts belong")
    .option("--base <URL>", "xapi: where the addresses of activities begin; the home page when left out")
    .option("--key-file <FILE>", "xapi: students by pseudonyms, made with the secret in this file")
    .option("--names", "xapi: students by their names")
    .option("--out <FILE>", "the file to write; standard output when left out")
    .action((students: readonly string[], options: ExportOptions) =>
      act((setting) => journalExport(setting, students, options)),
    );
  storeOption(command("import", "add events from JSON Lines; those that are there already change nothing"))
    .argument("<FILE>", "- for standard input")
    .action((file: string, options: StoreOptions) => act((setting) => journalImport(setting, file, options)));
}

/** `leeway journal export [STUDENT...]`: events as JSON Lines, or learning records, on standard output, or in a file that appears only when complete. */
function journalExport(
  setting: Setting,
  students: readonly string[],
  { as = "journal", ...options }: ExportOptions,
): Promise<Outcome> | Outcome {
  const asked = as === "journal" ? undefined : recordsAsked(setting, options);
  if (asked === MISUSE) return MISUSE;
  if (asked?.ok === false) return refuse(setting, asked.problems);
  const records = asked?.value;
  return withStore(setting, { ...options, create: false }, async (store) => {
    const target = options.out === undefined ? undefined : openOut(options.out);
    if (target?.ok === false) return refuse(setting, target.problems);
    const tally: Tally = { statements: 0, journals: 0 };
    try {
      const texts =
        records === undefined
          ? eventTexts(store, students)
          : recordTexts(setting, store, { students, records, tally, as });
      for await (const text of texts) {
        if (target === undefined) setting.terminal.print(text);
        else target.value.write(text);
      }
      target?.value.finish();
      if (records !== undefined) tellRecords(setting, records, tally);
    } catch (error) {
      target?.value.abandon();
      if (error instanceof Error && "code" in error && !("problem" in error))
        return refuse(setting, [unwritable(options.out!, error)]);
      throw error;
    }
    return DONE;
  });
}

/** The journals to export: those of the named students, or all. */
function wanted(students: readonly string[]): readonly { readonly student?: string }[] {
  return students.length === 0 ? [{}] : students.map((student) => ({ student }));
}

async function* eventTexts(store: Store, students: readonly string[]): AsyncIterable<string> {
  for (const of of wanted(students)) yield* exportJournals(store, of);
}

interface RecordTexts {
  readonly students: readonly string[];
  readonly records: Records;
  readonly tally: Tally;
  readonly as: "journal" | "xapi" | "xapi-list";
}

async function* recordTexts(
  setting: Setting,
  store: Store,
  { students, records, tally, as }: RecordTexts,
): AsyncIterable<string> {
  const [open, between, close] = as === "xapi-list" ? ["[\n", ",\n", "\n]\n"] : ["", "\n", "\n"];
  let count = 0;
  for (const of of wanted(students)) {
    for await (const key of store.journals(of)) {
      for (const line of await recordLines(setting, store, { records, key, tally })) {
        yield (count === 0 ? open : between) + line;
        count++;
      }
    }
  }
  if (count > 0) yield close;
  else if (as === "xapi-list") yield "[]\n";
}

/** `leeway journal import FILE`: imports events of any number of journals. Problems of single events are reported, and the others are kept. */
function journalImport(setting: Setting, file: string, options: StoreOptions): Promise<Outcome> | Outcome {
  const name = file === "-" ? STANDARD_INPUT : file;
  const text = readArgument(file, setting.terminal, IMPORT_LIMIT);
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
      const { say } = setting.words;
      const said = {
        file: placeName(name, setting.words),
        events: say("cli.events", { count: added }),
        known: String(known),
        journals: say("cli.journals", { count: journals }),
      };
      const refused = String(problems.length);
      const told =
        problems.length === 0 ? say("cli.imported", said) : say("cli.imported-refused", { ...said, refused });
      setting.terminal.print(`${plain(told)}\n`);
    }
    return outcomeOf(problems);
  });
}
