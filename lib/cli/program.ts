import { CommanderError } from "commander";
import { type Act, type AddCommand, commandsOf } from "./command.js";
import { type LoadWords, settingFor, settingIn, wordsFor } from "./language.js";
import { Misuse, WordedCommand } from "./options/misuse.js";
import { DONE, MISUSE, misuse, type Outcome, refuse } from "./outcome.js";
import { hasStrayAddress } from "./store/strayAddress.js";
import type { Terminal } from "./terminal.js";
import { version } from "./version.js";

/** Adds one command to the program; what it runs is loaded with it. */
type Adding = (command: AddCommand, act: Act) => void;

/** In the order of the help. Commands that load much the same are in one file, so that the package is of fewer pieces. */
const COMMANDS: Readonly<Record<string, () => Promise<Adding>>> = {
  check: async () => (await import("./check/check.js")).checkCommand,
  words: async () => (await import("./course/courseCommands.js")).wordsCommand,
  explain: async () => (await import("./explain/explain.js")).explainCommand,
  compile: async () => (await import("./course/courseCommands.js")).compileCommand,
  rungs: async () => (await import("./course/courseCommands.js")).rungsCommand,
  score: async () => (await import("./course/courseCommands.js")).scoreCommand,
  assess: async () => (await import("./course/assess.js")).assessCommand,
  gate: async () => (await import("./course/courseCommands.js")).gateCommand,
  decide: async () => (await import("./course/courseCommands.js")).decideCommand,
  plan: async () => (await import("./plan/plan.js")).planCommand,
  place: async () => (await import("./practise/practiceCommands.js")).placeCommand,
  listen: async () => (await import("./listen/listenCommands.js")).listenCommand,
  draft: async () => (await import("./listen/listenCommands.js")).draftCommand,
  calibrate: async () => (await import("./listen/listenCommands.js")).calibrateCommand,
  render: async () => (await import("./render/render.js")).renderCommand,
  serve: async () => (await import("./serve/schoolCommands.js")).serveCommand,
  work: async () => (await import("./serve/schoolCommands.js")).workCommand,
  page: async () => (await import("./page/page.js")).pageCommand,
  publish: async () => (await import("./publish/publish.js")).publishCommand,
  pack: async () => (await import("./publish/publish.js")).packCommand,
  unpack: async () => (await import("./publish/publish.js")).unpackCommand,
  enrol: async () => (await import("./practise/practiceCommands.js")).enrolCommand,
  submit: async () => (await import("./practise/practiceCommands.js")).submitCommand,
  standing: async () => (await import("./practise/practiceCommands.js")).standingCommand,
  journal: async () => (await import("./journal/journal.js")).journalCommand,
  store: async () => (await import("./journal/journal.js")).storeCommand,
  rehearse: async () => (await import("./rehearse/rehearse.js")).rehearseCommand,
  report: async () => (await import("./report/report.js")).reportCommand,
};

const CLOSING = `
A take is one playing of a drill: phrases (the riff once through), then the
outro, the bars after the last phrase. In it,
  drift       is how far the player's time moves over a silence,
  landing     is the return of the accompaniment, and the player's note there,
  steadiness  is how much notes scatter about the player's own beat.
A take is clean when all that the drill tolerates is kept: it is "within", not
"beyond" or "unclear". A rung is one setting of the drill's ladders; its gate is
what clean takes must show to let the player on.

Exit codes: 0 done, 1 the input has problems, 2 the command line was misused.
RUNG is a number from 1 or settings such as "tempo=96,dropout=1 bar".
TAKE is a recording (WAV, FLAC, MP3, Ogg, M4A ...), a MIDI file, or a JSON or
JSON Lines file (of many takes); - for standard input.
In JSON and CSV, positive is late, slower, dragging; negative is early, faster,
rushing.`;

/** Runs one command line, without the name of the program, and returns its outcome. `load` finds the languages of answers. */
export async function leeway(words: readonly string[], terminal: Terminal, load?: LoadWords): Promise<Outcome> {
  const misused = async (said: Misuse["said"]): Promise<Outcome> => {
    const { say } = (await wordsFor(languageIn(words), load)).words;
    return misuse({ terminal }, said(say));
  };
  if (hasStrayAddress(words)) {
    return misused((say) => say("cli.misuse.stray-address", { option: "--store" }));
  }
  let job: Parameters<Act>[0] | undefined;
  let language: string | undefined;
  let given: readonly string[] = [];
  const program = new WordedCommand("leeway")
    .description("Time-keeping drills: check a course, see its rungs and scores, assess takes, decide what comes next.")
    .version(version)
    .exitOverride()
    .configureOutput({ writeOut: terminal.print, writeErr: terminal.tell })
    .configureHelp({
      helpWidth: 80,
      minWidthToWrap: 30,
      subcommandTerm: (each) => `${each.name()} ${each.usage().replace("[options] ", "")}`,
    })
    .hook("preAction", (_, asked) => {
      const options = asked.opts<{ language?: string; course?: string | readonly string[] }>();
      language = options.language;
      given = [...asked.args, ...[options.course ?? []].flat()];
    })
    .addHelpText("after", CLOSING);
  const command = commandsOf(program);

  for (const add of await Promise.all(wanted(words).map((load) => load())))
    add(command, (run) => {
      job = run;
    });

  try {
    program.parse(words, { from: "user" });
  } catch (error) {
    if (error instanceof Misuse)
      return misused((say) => `${error.said(say)} ${say("cli.misuse.see-help", { command: "leeway --help" })}`);
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? DONE : MISUSE;
  }
  if (job === undefined) return DONE;
  const surroundings = { terminal, json: words.includes("--json"), load };
  if (language === undefined) return job(await settingFor(given, surroundings));
  const { setting, problems } = await settingIn(language, surroundings);
  return problems.length > 0 ? refuse(setting, problems) : job(setting);
}

/** The language that is asked for, in a command line that may not be read whole; English without one. */
function languageIn(words: readonly string[]): string {
  const at = words.findIndex((word) => /^--language(?:=|$)/.test(word));
  return words[at]?.split("=")[1] ?? words[at + 1] ?? "en";
}

/** The one command that the words begin with, or all of them where help is asked for or a name has to be guessed. */
function wanted([first = ""]: readonly string[]): readonly (() => Promise<Adding>)[] {
  const one = Object.hasOwn(COMMANDS, first) ? COMMANDS[first] : undefined;
  return one === undefined ? Object.values(COMMANDS) : [one];
}
