import { Argument } from "commander";
import { intervalText, KNOWN_INSTRUMENTS, KNOWN_SCALES, KNOWN_VOICES, pitchText } from "../../pattern/index.js";
import { listLanguages, type Words } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, type Outcome, printJson, type Setting } from "../outcome.js";
import { table } from "../output/textTable.js";

type Kind = "instruments" | "scales" | "voices" | "languages";

/** Adds `words` to the program. */
export function wordsCommand(command: AddCommand, act: Act): void {
  command("words", "the names a course may use, with their other names")
    .addArgument(new Argument("<KIND>", "what to list").choices(["instruments", "scales", "voices", "languages"]))
    .action((kind: Kind) => act((setting) => words(setting, kind)));
}

/** `leeway words KIND`: the instruments, scales or percussion voices that a course may name, or the languages it may be read in. */
function words(setting: Setting, kind: Kind): Outcome {
  const { columns, rows, entries } = LISTED[kind];
  if (setting.json) {
    printJson(setting, { [kind]: entries() });
    return DONE;
  }
  const headings = columns.map(
    (of) => `${FIGURES.includes(of) ? " " : ""}${setting.words.say("cli.word-column", { of })}`,
  );
  setting.terminal.print(table(headings, rows(setting.words)));
  return DONE;
}

type Column =
  | "name"
  | "sounds"
  | "range"
  | "beginners"
  | "clef"
  | "sound"
  | "family"
  | "other-names"
  | "steps"
  | "midi-key"
  | "tag"
  | "state";

interface List {
  readonly columns: readonly Column[];
  readonly rows: (words: Words) => readonly (readonly string[])[];
  readonly entries: () => readonly object[];
}

/** Columns of figures: a blank before the heading has the table set them to the right. */
const FIGURES: readonly Column[] = ["sound", "midi-key"];

const LISTED: Readonly<Record<Kind, List>> = {
  instruments: {
    columns: ["name", "sounds", "range", "beginners", "clef", "sound", "family", "other-names"],
    rows: ({ say }) =>
      instruments().map(({ name, sounds, lowest, highest, beginners, clef, program, family, otherNames }) => [
        name,
        sounds,
        say("cli.from-to", { from: lowest, to: `${highest}` }),
        say("cli.from-to", { from: beginners.lowest, to: beginners.highest }),
        clef,
        String(program),
        family,
        otherNames.join(", "),
      ]),
    entries: instruments,
  },
  scales: {
    columns: ["name", "steps", "other-names"],
    rows: () => KNOWN_SCALES.map(({ name, steps, otherNames }) => [name, steps.join(" "), otherNames.join(", ")]),
    entries: () => KNOWN_SCALES,
  },
  voices: {
    columns: ["name", "midi-key", "other-names"],
    rows: () => KNOWN_VOICES.map(({ name, key, otherNames }) => [name, String(key), otherNames.join(", ")]),
    entries: () => KNOWN_VOICES,
  },
  languages: {
    columns: ["tag", "name", "state"],
    rows: ({ say }) =>
      listLanguages().map(({ tag, name, isReviewed }) => [
        tag,
        name,
        say("languages.state", { state: isReviewed ? "reviewed" : "unreviewed" }),
      ]),
    entries: listLanguages,
  },
};

function instruments() {
  return Object.entries(KNOWN_INSTRUMENTS).map(([name, { instrument, beginners, ...rest }]) => ({
    name,
    sounds: intervalText(instrument.transposition),
    lowest: pitchText(instrument.lowest),
    highest: instrument.highest === undefined ? undefined : pitchText(instrument.highest),
    beginners: { lowest: pitchText(beginners.lowest), highest: pitchText(beginners.highest) },
    clef: instrument.clef,
    ...rest,
  }));
}
