import { Option } from "commander";
import type { Problem } from "../../base/index.js";
import { type BackingFound, soundPeaks } from "../../listen/index.js";
import { soundChart } from "../../render/chart/index.js";
import type { Words } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { wholeNumber } from "../options/optionValues.js";
import { hearingOptions } from "../options/takeOptions.js";
import { DONE, type Outcome, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { table } from "../output/textTable.js";
import { type HeardTake, type HearingOptions, hearTake } from "../takes/heardTake.js";
import { withAdvice } from "../takes/readTakes.js";
import { openSound } from "../takes/takeSource.js";

/** Output formats of `leeway listen`. */
const HEARD_AS = ["text", "json", "csv", "svg"] as const;

/** Smallest and largest width of a picture, px. */
const WIDTHS = [280, 2000] as const;

interface ListeningOptions extends HearingOptions {
  readonly as: (typeof HEARD_AS)[number];
  /** Width of the picture, px. */
  readonly width?: number;
}

/** Adds `listen` to the program. */
export function listenCommand(command: AddCommand, act: Act): void {
  hearingOptions(command("listen", "when notes begin in a recording"))
    .argument("<FILE>", "WAV, FLAC, MP3, Ogg, M4A and others, or - for standard input")
    .addOption(new Option("--as <FORM>", "how to answer; json is a take").choices([...HEARD_AS]).default("text"))
    .option("--width <PX>", "svg: width of the picture", wholeNumber(...WIDTHS))
    .action((file: string, options: ListeningOptions) => act((setting) => listening(setting, file, options)));
}

/** `leeway listen FILE`: the onsets in a recording. Its JSON is a take, which every command accepts instead of the recording. */
async function listening(setting: Setting, file: string, options: ListeningOptions): Promise<Outcome> {
  const answer: Setting = { ...setting, json: setting.json || options.as === "json" };
  const sound = await openSound(file, setting.terminal);
  if (!sound.ok) return refuse(answer, sound.problems);
  const heard = await hearTake(sound.value, { start: 0, ...options });
  if (!heard.ok) return refuse(answer, heard.problems);
  tellProblems(setting, heard.advice);
  if (answer.json) printJson(answer, withAdvice(heard.value.take, heard.advice));
  else if (options.as === "csv") setting.terminal.print(csvOf(heard.value));
  else if (options.as === "svg") {
    const { words } = setting;
    const picture = await soundPeaks(sound.value.open());
    const width = options.width === undefined ? {} : { width: options.width };
    setting.terminal.print(
      `${soundChart(pictureOf(file, heard.value, { peaks: picture, advice: heard.advice, words }), { ...width, words })}\n`,
    );
  } else setting.terminal.print(textOf(heard.value, setting.words));
  return DONE;
}

const COLUMNS = ["seconds", "pitch", "velocity", "strength", "noise_ms"];

/** Comma-separated values (RFC 4180); pitch as MIDI note number, empty without a pitch. */
function csvOf({ take, onsets }: HeardTake): string {
  const rows = onsets.map(({ at, strength, noiseMs, velocity }, i) =>
    [at.toFixed(5), pitchOf(take, i), Math.round(velocity), strength.toFixed(2), noiseMs.toFixed(2)].join(","),
  );
  return [COLUMNS.join(","), ...rows].map((row) => `${row}\r\n`).join("");
}

function textOf({ take, onsets, family, seconds, backing }: HeardTake, words: Words): string {
  const { say } = words;
  const heard = {
    take: take.id ?? say("cli.recording"),
    notes: say("cli.heard-notes", { notes: onsets.length }),
    seconds: seconds.toFixed(1),
    family,
  };
  const ms = (take.motorFloorMs ?? 0).toFixed(1);
  const said = onsets.length === 0 ? say("cli.heard", heard) : say("cli.heard-known", { ...heard, ms });
  const head = `${plain(said)}\n${backing?.found ? backingText(backing, words) : ""}`;
  const rows = onsets.map(({ at, noiseMs, velocity }, i) => [
    at.toFixed(3),
    i === 0 ? "" : (at - onsets[i - 1]!.at).toFixed(3),
    pitchOf(take, i),
    String(Math.round(velocity)),
    noiseMs.toFixed(1),
  ]);
  if (onsets.length === 0) return head;
  // Figures, each under a heading that begins with a blank: to the right.
  const headings = (["at", "since", "pitch", "velocity", "noise"] as const).map(
    (of) => ` ${say("cli.heard-column", { of })}`,
  );
  return head + table(headings, rows);
}

function backingText({ start, startError, skewPpm, skewErrorPpm }: BackingFound, { say }: Words): string {
  const clock = { skew: skewPpm.toFixed(1), skewError: skewErrorPpm.toFixed(1) };
  const found = { start: start.toFixed(4), error: (1000 * startError).toFixed(2), ...clock };
  return `  ${say("cli.backing", found)}\n`;
}

function pitchOf(take: HeardTake["take"], index: number): string {
  const onset = take.onsets[index];
  return typeof onset === "object" && onset.pitch !== undefined ? String(onset.pitch) : "";
}

function pictureOf(
  file: string,
  { take, onsets, seconds, family }: HeardTake,
  {
    peaks,
    advice,
    words,
  }: {
    readonly peaks: readonly (readonly [number, number])[];
    readonly advice: readonly Problem[];
    readonly words: Words;
  },
) {
  return {
    name: file === "-" ? words.say("cli.standard-input") : file.replace(/^.*[\\/]/, ""),
    seconds,
    peaks,
    onsets: onsets.map(({ at }) => at),
    noiseMs: take.motorFloorMs ?? 0,
    advice: [
      words.say("cli.listened-to-as", { family }),
      ...advice.map((each) => sentenceOf(words.word(each.words?.message, each.message))),
    ],
  };
}

/** A message as a sentence of its own. */
function sentenceOf(message: string): string {
  return `${message.replace(/^./u, (letter) => letter.toUpperCase())}.`;
}
