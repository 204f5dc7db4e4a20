import { Argument } from "commander";
import { intervalText, KNOWN_INSTRUMENTS, KNOWN_SCALES, KNOWN_VOICES, pitchText } from "../../pattern/index.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, type Outcome, printJson, type Setting } from "../outcome.js";
import { table } from "../output/textTable.js";

type Kind = "instruments" | "scales" | "voices";

/** Adds `words` to the program. */
export function wordsCommand(command: AddCommand, act: Act): void {
  command("words", "the names a course may use, with their other names")
    .addArgument(new Argument("<KIND>", "what to list").choices(["instruments", "scales", "voices"]))
    .action((kind: Kind) => act((setting) => words(setting, kind)));
}

/** `leeway words KIND`: the instruments, scales or percussion voices that a course may name. */
function words(setting: Setting, kind: Kind): Outcome {
  if (setting.json) printJson(setting, { [kind]: LISTED[kind].entries() });
  else setting.terminal.print(table(LISTED[kind].headings, LISTED[kind].rows()));
  return DONE;
}

interface List {
  readonly headings: readonly string[];
  readonly rows: () => readonly (readonly string[])[];
  readonly entries: () => readonly object[];
}

const LISTED: Readonly<Record<Kind, List>> = {
  instruments: {
    headings: ["name", "sounds", "written range", "beginners", "clef", " sound", "family", "other names"],
    rows: () =>
      instruments().map(({ name, sounds, lowest, highest, beginners, clef, program, family, otherNames }) => [
        name,
        sounds,
        `${lowest} to ${highest}`,
        `${beginners.lowest} to ${beginners.highest}`,
        clef,
        String(program),
        family,
        otherNames.join(", "),
      ]),
    entries: instruments,
  },
  scales: {
    headings: ["name", "semitones above the tonic", "other names"],
    rows: () => KNOWN_SCALES.map(({ name, steps, otherNames }) => [name, steps.join(" "), otherNames.join(", ")]),
    entries: () => KNOWN_SCALES,
  },
  voices: {
    headings: ["name", " MIDI key", "other names"],
    rows: () => KNOWN_VOICES.map(({ name, key, otherNames }) => [name, String(key), otherNames.join(", ")]),
    entries: () => KNOWN_VOICES,
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
