import { type Command, Option } from "commander";
import { type EnrolmentOptions, enrolment } from "./enrolment.js";
import { type ErasureOptions, journalErase, journalVerify, type VerifyOptions } from "./journalCare.js";
import { type ExportOptions, journalExport, journalImport } from "./journalFiles.js";
import type { Outcome, Setting } from "./outcome.js";
import { type StandingOptions, standings } from "./standings.js";
import type { StoreOptions } from "./storePlace.js";
import { type SubmissionOptions, submission } from "./submission.js";
import { takeOptions } from "./takeOptions.js";

type Act = (run: (setting: Setting) => Promise<Outcome> | Outcome) => void;

/** Adds the option that names a store. */
export function storeOption(command: Command): Command {
  return command.option("--store <FILE|URL>", "where journals are kept; the user's own store when left out");
}

/** Adds what keeps journals to the program; `act` is given what to do once the words are read. */
export function storeCommands(command: (name: string, description: string) => Command, act: Act): void {
  storeOption(command("enrol", "begin a course for students, or take them over to its new edition"))
    .argument("<FILE>")
    .argument("<STUDENT...>")
    .option("--at <TIME>", "the time of enrolment (RFC 3339); now when left out")
    .action((file: string, students: readonly string[], options: EnrolmentOptions) =>
      act((setting) => enrolment(setting, [file, ...students], options)),
    );
  takeOptions(storeOption(command("submit", "assess takes at the student's rung, keep what they showed, and decide")))
    .argument("<STUDENT>")
    .argument("<TAKE...>")
    .option("--drill <D>", "the drill played; the one that is open when left out")
    .option("--rung <RUNG>", "the rung played; the student's when left out")
    .option("--mix <M>", "the mix played to; the drill's first when left out")
    .option("--course <FILE|NAME>", "the course; the student's, as kept in the store, when left out")
    .option("--at <TIME>", "the time of the takes (RFC 3339); now when left out")
    .action((student: string, takes: readonly string[], options: SubmissionOptions) =>
      act((setting) => submission(setting, [student, ...takes], options)),
    );
  storeOption(command("standing", "where students are in their drills"))
    .argument("[STUDENT...]", "everybody when left out")
    .option("--course <NAME>", "only in this course")
    .action((students: readonly string[], options: StandingOptions) =>
      act((setting) => standings(setting, students, options)),
    );
  journalCommands(command("journal", "journals as files, and their care"), act);
}

function journalCommands(journal: Command, act: Act): void {
  const command = (name: string, description: string): Command =>
    storeOption(journal.command(name).description(description).option("--json", "answer as JSON"));
  command("export", "events as JSON Lines, one journal after the other, or learning records (xAPI)")
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
  command("import", "add events from JSON Lines; those that are there already change nothing")
    .argument("<FILE>", "- for standard input")
    .action((file: string, options: StoreOptions) => act((setting) => journalImport(setting, file, options)));
  command("verify", "compare every event and standing with what was written")
    .argument("[STUDENT...]", "the whole store when left out")
    .option("--repair", "work standings and counts out anew; set unreadable events aside")
    .action((students: readonly string[], options: VerifyOptions) =>
      act((setting) => journalVerify(setting, students, options)),
    );
  command("erase", "erase everything about a student for good")
    .argument("<STUDENT>")
    .option("--yes", "that this is meant")
    .action((student: string, options: ErasureOptions) => act((setting) => journalErase(setting, student, options)));
}
