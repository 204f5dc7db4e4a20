import { Command, CommanderError } from "commander";
import { checkCommand } from "./check/check.js";
import type { Act, AddCommand } from "./command.js";
import { assessCommand } from "./course/assess.js";
import { decideCommand } from "./course/decide.js";
import { gateCommand } from "./course/gate.js";
import { rungsCommand } from "./course/rungs.js";
import { scoreCommand } from "./course/score.js";
import { careCommands } from "./journal/care.js";
import { transferCommands } from "./journal/transfer.js";
import { calibrateCommand } from "./listen/calibrate.js";
import { listenCommand } from "./listen/listen.js";
import { DONE, MISUSE, type Outcome, type Setting } from "./outcome.js";
import { planCommand } from "./plan/plan.js";
import { enrolCommand } from "./practise/enrol.js";
import { placeCommand } from "./practise/place.js";
import { standingCommand } from "./practise/standing.js";
import { submitCommand } from "./practise/submit.js";
import { renderCommand } from "./render/render.js";
import { reportCommand } from "./report/report.js";
import { hasStrayAddress } from "./store/openStore.js";
import type { Terminal } from "./terminal.js";
import { version } from "./version.js";

/** In the order of the help. */
const COMMANDS: readonly ((command: AddCommand, act: Act) => void)[] = [
  checkCommand,
  rungsCommand,
  scoreCommand,
  assessCommand,
  gateCommand,
  decideCommand,
  planCommand,
  placeCommand,
  listenCommand,
  calibrateCommand,
  renderCommand,
  enrolCommand,
  submitCommand,
  standingCommand,
  journalCommand,
  reportCommand,
];

const CLOSING = `
Exit codes: 0 done, 1 the input has problems, 2 the command line was misused.
RUNG is a number from 1 or settings such as "tempo=96,dropout=1 bar".
TAKE is a recording (WAV, FLAC, MP3, Ogg, M4A ...), a MIDI file, or a JSON or
JSON Lines file (of many takes); - for standard input.
In JSON and CSV, positive is late, slower, dragging; negative is early, faster, rushing.`;

/** Runs one command line, without the name of the program, and returns its outcome. */
export async function leeway(words: readonly string[], terminal: Terminal): Promise<Outcome> {
  if (hasStrayAddress(words)) {
    terminal.tell(
      "leeway: the address of a database stands behind --store only, found it elsewhere; nothing was done\n",
    );
    return MISUSE;
  }
  let outcome: Outcome | Promise<Outcome> = DONE;
  const setting = (): Setting => ({
    terminal,
    json: program.opts<{ json?: true }>().json === true || words.includes("--json"),
    sources: new Map(),
  });
  const program = new Command("leeway")
    .description("Time-keeping drills: check a course, see its rungs and scores, assess takes, decide what comes next.")
    .version(version)
    .exitOverride()
    .configureOutput({ writeOut: terminal.print, writeErr: terminal.tell })
    .configureHelp({
      helpWidth: 80,
      minWidthToWrap: 30,
      subcommandTerm: (each) => `${each.name()} ${each.usage().replace("[options] ", "")}`,
    })
    .showHelpAfterError("(see leeway --help)")
    .addHelpText("after", CLOSING);
  const command = commandsOf(program);

  for (const add of COMMANDS)
    add(command, (run) => {
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

/** Adds commands to the program, or subcommands to a command. */
function commandsOf(parent: Command): AddCommand {
  return (name, description) => parent.command(name).description(description).option("--json", "answer as JSON");
}

function journalCommand(command: AddCommand, act: Act): void {
  const journal = commandsOf(command("journal", "journals as files, and their care"));
  transferCommands(journal, act);
  careCommands(journal, act);
}
