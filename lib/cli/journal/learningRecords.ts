import { placedUnder, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { findRung, takeSeconds } from "../../drill/index.js";
import { keptCourses } from "../../practice/index.js";
import { type Naming, openRecords, type Records, statementsOf } from "../../records/index.js";
import type { TakeAssessed } from "../../schema/index.js";
import { eventsOf, type JournalKey, type Store } from "../../store/index.js";
import { readBytes } from "../input/inputFile.js";
import { type MISUSE, misuse, type Setting, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";

export interface RecordExportOptions {
  readonly home?: string;
  readonly base?: string;
  readonly keyFile?: string;
  readonly names?: true;
}

/** Most bytes of a key; our choice: far more than any key has. */
const KEY_LIMIT = 100_000;

/** Options of learning records, from the command line; misuse when a required one is missing. */
export function recordsAsked(
  setting: Setting,
  { home, base, keyFile, names }: RecordExportOptions,
): Result<Records> | typeof MISUSE {
  if (home === undefined || (keyFile === undefined) === (names === undefined)) {
    const needed = { home: "--home", key: "--key-file", names: "--names" };
    return misuse(setting, setting.words.say("cli.misuse.records-need", needed));
  }
  const naming = namingOf(keyFile);
  if (!naming.ok) return naming;
  const records = openRecords({ home, ...(base === undefined ? {} : { base }), naming: naming.value });
  if (records.ok || keyFile === undefined) return records;
  const problems = records.problems.map((each) =>
    each.code === "RECORD_KEY_TOO_SHORT" ? placedUnder(each, "", keyFile) : each,
  );
  return { ok: false, problems };
}

function namingOf(keyFile: string | undefined): Result<Naming> {
  if (keyFile === undefined) return success({ kind: "names" });
  const bytes = readBytes(keyFile, KEY_LIMIT);
  if (!bytes.ok) return bytes;
  // Editors and shells add a line end, which is not part of the key.
  let end = bytes.value.length;
  while (end > 0 && [10, 13].includes(bytes.value[end - 1]!)) end--;
  return success({ kind: "pseudonyms", key: bytes.value.slice(0, end) });
}

/** Counts of the records written, for the message. */
export interface Tally {
  statements: number;
  journals: number;
}

/** The statements of a journal, each as JSON on one line, without the line end. Events that cannot be recorded are reported. */
export async function recordLines(
  setting: Setting,
  store: Store,
  { records, key, tally }: { readonly records: Records; readonly key: JournalKey; readonly tally: Tally },
): Promise<readonly string[]> {
  const events = await eventsOf(store, key);
  const courses = keptCourses(store);
  const editions = new Map<string, Curriculum>();
  for (const event of events) {
    const course = event.kind === "take assessed" ? await courses.find(key.curriculum, event.edition) : undefined;
    if (course !== undefined) editions.set(course.edition, course);
  }
  const lengths = new Map<string, number | undefined>();
  const durationOf = (take: TakeAssessed): number | undefined => {
    const name = JSON.stringify([take.edition, take.drill, take.rung]);
    if (!lengths.has(name)) {
      // The stored edition may lack the drill or the rung: then the record has no duration.
      const drill = editions.get(take.edition)?.drills.find((each) => each.name === take.drill);
      const rung = drill && findRung(drill, take.rung);
      lengths.set(name, rung?.ok ? takeSeconds(rung.value) : undefined);
    }
    return lengths.get(name);
  };
  const { statements, problems } = statementsOf(records, events, { durationOf });
  tellProblems(setting, problems);
  tally.journals++;
  tally.statements += statements.length;
  return statements.map((statement) => JSON.stringify(statement));
}

/** The notice beside the records about what is in them: once sent, they are out of the school's control. */
export function tellRecords({ terminal, words }: Setting, records: Records, { statements, journals }: Tally): void {
  const { say } = words;
  const made = say("cli.records-made", {
    statements: say("cli.statements", { count: statements }),
    journals: say("cli.journals", { count: journals }),
    home: records.home,
    whose: records.naming === "names" ? "names" : "pseudonyms",
  });
  terminal.tell(`${plain(made)}\n`);
}
