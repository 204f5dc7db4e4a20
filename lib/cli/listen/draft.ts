import { Option } from "commander";
import { divide, failure, fraction, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import { ASSUMED_FAMILY, familyOfInstrument, INSTRUMENT_FAMILIES, type InstrumentFamily } from "../../listen/index.js";
import { instrumentNamed, type Key, parseKey, unknownInstrument } from "../../pattern/index.js";
import {
  type Draft,
  type DraftOptions,
  draftOf,
  type HeardNote,
  heardNotes,
  notesInMidi,
  type PlayerHeard,
} from "../../recording/index.js";
import { barLength, beatOf, type Meter, meterText, parseMeter } from "../../time/index.js";
import { fileCodes } from "../codes.js";
import type { Act, AddCommand } from "../command.js";
import { seconds, tempo, wholeNumber } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { sayProblem } from "../say.js";
import { takeSource } from "../takes/takeSource.js";
import { writeDraft } from "./draftFiles.js";
import { type Drafting, GRIDS } from "./drafting.js";
import { draftText } from "./draftText.js";

const problem = problemsOf(fileCodes);

/** Least agreement with a grid at which it is one; our choice: swung eighths on sixteenths agree by a half. */
const AGREES = 0.7;
/** How far the tempo may be from what was said, as a share; our choice, above what a draft of some bars can tell. */
const DIFFERS = 0.01;

interface DraftCommandOptions {
  readonly tempo: number;
  readonly for?: string;
  readonly family?: InstrumentFamily;
  readonly meter: string;
  readonly grid: keyof typeof GRIDS;
  readonly key: string;
  readonly starts?: number;
  readonly track?: number;
  readonly out?: string;
}

/** Adds `draft` to the program. */
export function draftCommand(command: AddCommand, act: Act): void {
  command("draft", "the first draft of a riff from playing: a note line, and a sheet to correct")
    .argument("<RECORDING>", "a recording of one player, or a MIDI file; - for standard input")
    .requiredOption("--tempo <BPM>", "beats a minute that it was played at, about", tempo)
    .option("--for <INSTRUMENT>", "what plays, and who reads the sheet")
    .addOption(
      new Option("--family <F>", "how notes begin on the instrument; by --for when left out").choices([
        ...INSTRUMENT_FAMILIES,
      ]),
    )
    .option("--meter <METER>", "the meter", "4/4")
    .addOption(new Option("--grid <VALUE>", "the shortest note value").choices(Object.keys(GRIDS)).default("1/16"))
    .option("--key <KEY>", "the key, which spells the pitches", "C major")
    .option("--starts <SECONDS>", "where bar 1 begins in the recording; with the first note when left out", seconds)
    .option("--track <N>", "MIDI: only this track, from 1", wholeNumber(1))
    .option("--out <DIR>", "a folder for the draft as a course, and its sheet")
    .action((file: string, options: DraftCommandOptions) => act((setting) => draft(setting, file, options)));
}

/** `leeway draft RECORDING`: notes, their places on a grid, and how sure each is. */
async function draft(setting: Setting, file: string, options: DraftCommandOptions): Promise<Outcome> {
  const meter = parseMeter(options.meter);
  if (!meter.ok) return refuse(setting, meter.problems);
  const key = parseKey(options.key);
  if (!key.ok) return refuse(setting, key.problems);
  const instrument = options.for === undefined ? undefined : instrumentNamed(options.for, {});
  if (options.for !== undefined && instrument === undefined)
    return refuse(setting, [unknownInstrument(options.for, {}, "")]);
  const grid = gridOf(options, meter.value, key.value);
  if (grid === undefined) {
    const asked = { option: "--grid", grid: options.grid, meter: meterText(meter.value) };
    return misuse(setting, setting.words.say("cli.misuse.grid-unfit", asked));
  }
  const known = options.family ?? (options.for === undefined ? undefined : familyOfInstrument(options.for));
  const family = known ?? ASSUMED_FAMILY;
  const isPitched = family !== "percussive" || instrument !== undefined;
  const heard = await notesOf(setting, file, { family, isPitched, track: options.track });
  if (!heard.ok) return refuse(setting, heard.problems);
  const made = draftOf(heard.value.notes, grid);
  if (made === undefined) return refuse(setting, [withoutNotes(file)]);
  const drafting: Drafting = {
    file,
    instrument: instrument?.name,
    family: heard.value.family,
    meter: meter.value,
    grid: options.grid,
    key: options.key,
    options: grid,
  };
  tellProblems(setting, [...heard.advice, ...draftAdvice(made, drafting)]);
  if (setting.json) printJson(setting, { version: 1, ...jsonOf(made, drafting) });
  else setting.terminal.print(draftText(made, drafting, setting.words));
  if (options.out === undefined) return DONE;
  return writeDraft(setting, made, drafting, options.out);
}

function gridOf({ tempo: bpm, grid, starts }: DraftCommandOptions, meter: Meter, key: Key): DraftOptions | undefined {
  const perWhole = GRIDS[grid];
  const [beat, bar] = [beatOf(meter), barLength(meter)].map((length) => divide(length, fraction(1, perWhole)));
  if (beat!.d !== 1 || bar!.d !== 1) return undefined;
  return { tempo: bpm, perWhole, perBeat: beat!.n, perBar: bar!.n, key, starts };
}

interface Heard {
  readonly notes: readonly HeardNote[];
  readonly family: InstrumentFamily | "midi";
}

async function notesOf(
  setting: Setting,
  file: string,
  { family, isPitched, track }: PlayerHeard & { readonly track: number | undefined },
): Promise<Result<Heard>> {
  const source = await takeSource(file, setting.terminal);
  if (!source.ok) return source;
  if (source.value.kind === "bytes") {
    const notes = notesInMidi(source.value.bytes, { track });
    return notes.ok ? success({ notes: notes.value, family: "midi" }, notes.advice) : notes;
  }
  const { sound } = source.value;
  const notes = await heardNotes(sound.open, { family, isPitched });
  const found = sound.problems();
  const wrong = found.filter(({ severity }) => severity === "error");
  return wrong.length > 0 ? failure(...wrong) : success({ notes, family }, found);
}

/** The draft for programs: places are counted in notes of the grid from bar 1. */
function jsonOf(draft: Draft, { instrument, meter, grid, key, family, options }: Drafting): object {
  const { notes, ...rest } = draft;
  const { perBar, perBeat, tempo: stated } = options;
  return {
    ...(instrument && { instrument }),
    family,
    meter: meterText(meter),
    grid,
    key,
    stated: { tempo: stated },
    ...rest,
    notes: notes.map((note) => ({
      bar: 1 + Math.floor(note.place / perBar),
      beat: 1 + (note.place - perBar * Math.floor(note.place / perBar)) / perBeat,
      ...note,
    })),
  };
}

function draftAdvice(
  { agreement, tempo: heard }: Draft,
  { file, grid, options }: Pick<Drafting, "file" | "grid" | "options">,
): readonly Problem[] {
  if (agreement < AGREES) {
    const message = sayProblem("cli-problem.draft-off-grid", { grid });
    return [problem("DRAFT_OFF_GRID", message, { file }, sayProblem("cli-problem.draft-off-grid-remedy"))];
  }
  if (Math.abs(heard / options.tempo - 1) < DIFFERS) return [];
  const tempi = { heard: heard.toFixed(1), stated: String(options.tempo) };
  const message = sayProblem("cli-problem.draft-tempo-differs", tempi);
  return [
    problem("DRAFT_TEMPO_DIFFERS", message, { file }, sayProblem("cli-problem.draft-tempo-differs-remedy", tempi)),
  ];
}

function withoutNotes(file: string): Problem {
  const message = sayProblem("cli-problem.draft-without-notes");
  return problem("DRAFT_WITHOUT_NOTES", message, { file }, sayProblem("cli-problem.draft-without-notes-remedy"));
}
