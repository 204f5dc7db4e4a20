import { Command, CommanderError } from "commander";

import { type AssessmentOptions, assessment } from "./assessment.js";
import { type CheckOptions, check } from "./check.js";
import { hasStrayAddress } from "./databaseAddress.js";
import { type DecisionOptions, decision } from "./decision.js";
import { gateTable } from "./gateTable.js";
import { listenCommands } from "./listenCommands.js";
import type { Machine } from "./machine.js";
import { wholeNumber } from "./numbers.js";
import type { ScoreChoice } from "./openScore.js";
import { DONE, MISUSE, type Outcome, type Setting } from "./outcome.js";
import { placeCommand } from "./placeCommand.js";
import { planCommand } from "./planCommand.js";
import { renderCommand } from "./renderCommand.js";
import { reportCommand } from "./reportCommand.js";
import { type RungRange, rungList } from "./rungList.js";
import { scoreOut } from "./scoreOut.js";
import { storeCommands, storeOption } from "./storeCommands.js";
import { takeOptions } from "./takeOptions.js";
import { version } from "./version.js";

const DRAW_HELP = "draws silences at random places anew: any name, the same for score and take";

const CLOSING = `
Exit codes: 0 done, 1 the input has problems, 2 the command line was misused.
RUNG is an index from 0 or settings such as "tempo=96,dropout=1 bar".
TAKE is a recording (WAV, FLAC, MP3, Ogg, M4A ...), a MIDI file, or a JSON or
JSON Lines file (of many takes); - for standard input.
Milliseconds: positive is late, negative is early.`;

/** Runs one command line (without the program's own name) and says how it ended. */
export async function leeway(words: readonly string[], machine: Machine): Promise<Outcome> {
  if (hasStrayAddress(words)) {
    machine.tell(
      "leeway: the address of a database stands behind --store only, found it elsewhere; nothing was done\n",
    );
    return MISUSE;
  }
  let outcome: Outcome | Promise<Outcome> = DONE;
  const setting = (): Setting => ({
    machine,
    json: program.opts<{ json?: true }>().json === true || words.includes("--json"),
    sources: new Map(),
  });
  const program = new Command("leeway")
    .description("Time-keeping drills: check a course, see its rungs and scores, assess takes, decide what comes next.")
    .version(version)
    .exitOverride()
    .configureOutput({ writeOut: machine.print, writeErr: machine.tell })
    .configureHelp({
      helpWidth: 80,
      minWidthToWrap: 30,
      subcommandTerm: (each) => `${each.name()} ${each.usage().replace("[options] ", "")}`,
    })
    .showHelpAfterError("(see leeway --help)")
    .addHelpText("after", CLOSING);
  const command = (name: string, description: string): Command =>
    program.command(name).description(description).option("--json", "answer as JSON");

  storeOption(command("check", "every problem and piece of advice in each course"))
    .argument("<FILE...>")
    .option(
      "--against [OLD]",
      "what a new edition does to students; OLD is the old one's file, or what the store keeps",
    )
    .option("--rewrite", "write lines of the former spelling in the present one, in place")
    .action((files: readonly string[], options: CheckOptions) => {
      outcome = check(setting(), files, options);
    });
  command("rungs", "the rungs of a drill, easiest first")
    .argument("<FILE>")
    .argument("<DRILL>")
    .option("--from <I>", "first rung to list", wholeNumber(0))
    .option("--to <J>", "last rung to list", wholeNumber(0))
    .action((file: string, drill: string, range: RungRange) => {
      outcome = rungList(setting(), [file, drill], range);
    });
  command("score", "what a rung sounds like and what is expected of the student")
    .argument("<FILE>")
    .argument("<DRILL>")
    .argument("<RUNG>")
    .option("--mix <M>", "the mix; the drill's first when left out")
    .option("--draw <NAME>", DRAW_HELP)
    .action((file: string, drill: string, rung: string, choice: ScoreChoice) => {
      outcome = scoreOut(setting(), [file, drill, rung], choice);
    });
  takeOptions(command("assess", "what each take of a rung showed"))
    .argument("<FILE>")
    .argument("<DRILL>")
    .argument("<RUNG>")
    .argument("<TAKE...>")
    .option("--mix <M>", "the mix played to; the drill's first when left out")
    .option("--draw <NAME>", DRAW_HELP)
    .option("--pictures <DIR>", "a folder for a picture of each take (SVG)")
    .action((file: string, drill: string, rung: string, takes: readonly string[], options: AssessmentOptions) => {
      outcome = assessment(setting(), [file, drill, rung, ...takes], options);
    });
  command("gate", "the chance to pass a drill's gate, for weak and strong players")
    .argument("<FILE>")
    .argument("<DRILL>")
    .action((file: string, drill: string) => {
      outcome = gateTable(setting(), [file, drill]);
    });
  command("decide", "what a student does next: the new events for the journal, as JSON Lines")
    .argument("<FILE>")
    .requiredOption("--journal <FILE>", "the student's journal so far (JSON Lines)")
    .option("--findings <FILE>", "findings to decide on, in order (JSON Lines, - for standard input)")
    .option("--student <NAME>", "whom to enrol when the journal is empty or not there yet")
    .option("--at <TIME>", "the time to decide at (RFC 3339); now when left out")
    .action((file: string, options: DecisionOptions) => {
      outcome = decision(setting(), file, options);
    });
  planCommand(command, (run) => {
    outcome = run(setting());
  });
  placeCommand(command, (run) => {
    outcome = run(setting());
  });
  listenCommands(command, (run) => {
    outcome = run(setting());
  });
  renderCommand(command, (run) => {
    outcome = run(setting());
  });
  storeCommands(command, (run) => {
    outcome = run(setting());
  });
  reportCommand(command, (run) => {
    outcome = run(setting());
  });

  try {
    program.parse(words, { from: "user" });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? DONE : MISUSE;
  }
  return outcome;
}
