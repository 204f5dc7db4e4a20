import type { Command } from "commander";
import { failureIn, type Result, success } from "../../base/index.js";
import { findMix, otherScores, type Rung, rungNumber, scoreOf, settingsText } from "../../drill/index.js";
import { silencesHeard, tempiText, textStrip, textStripKey } from "../../render/chart/index.js";
import type { Score } from "../../schema/index.js";
import { type Words, wordSettings } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { openRung } from "../input/courseFile.js";
import { DONE, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { table } from "../output/textTable.js";

/** Adds `score` to the program. */
export function scoreCommand(command: AddCommand, act: Act): void {
  const score = command("score", "what a rung sounds like and what is expected of the student")
    .argument("<FILE>")
    .argument("<DRILL>")
    .argument("<RUNG>")
    .option("--mix <M>", "the mix; the drill's first when left out");
  drawOption(score).action((file: string, drill: string, rung: string, choice: ScoreChoice) =>
    act((setting) => scoreOut(setting, [file, drill, rung], choice)),
  );
}

/** `leeway score FILE DRILL RUNG`: the sound of the rung, and the notes expected of the student. */
function scoreOut(setting: Setting, names: readonly [string, string, string], choice: ScoreChoice): Outcome {
  const opened = openScore(setting, names, choice);
  if (!opened.ok) return refuse(setting, opened.problems);
  const { rung, score } = opened.value;
  if (setting.json) {
    printJson(setting, score);
    return DONE;
  }
  setting.terminal.print(scoreText(score, rung, setting.words));
  return DONE;
}

function scoreText(score: Score, rung: Rung, words: Words): string {
  const { say } = words;
  const parts = score.parts.map(({ name, instrument, student, does, notes, recorded }) => [
    plain(name),
    plain(instrument ?? ""),
    say("cli.does", { does, whose: student ? "yours" : "band" }),
    recorded === undefined ? `${notes.length}` : say("cli.recording"),
  ]);
  const { drill, mix, expected } = score;
  const settings = wordSettings(settingsText(rung.settings), words) || say("setting.only-rung");
  const columns = (["part", "instrument", "does", "notes"] as const).map((of) => say("cli.score-column", { of }));
  return [
    `${plain(say("cli.rung-at", { drill, number: String(rungNumber(rung)), settings, mix }))}\n`,
    `  ${plain(timesText(score, words))}\n\n`,
    textStrip(score, { words }),
    textStripKey(score, words),
    "\n",
    // A heading that begins with a blank stands to the right, over figures.
    table([...columns.slice(0, 3), ` ${columns[3]}`], parts),
    "\n",
    `  ${say("cli.expected", { onsets: expected.length, silences: silencesHeard(score).length })}\n`,
  ].join("");
}

function timesText(score: Score, words: Words): string {
  const { countIn, duration, beat, beatUnit, tempo } = score;
  const { say } = words;
  const times = { countIn: countIn.toFixed(2), duration: duration.toFixed(2), beat: beat.toFixed(3) };
  if (beatUnit === undefined) return say("cli.times", times);
  return say("cli.times-of", { ...times, unit: beatUnit, tempo: tempiText(score, words) ?? String(tempo) });
}

/** The choice of a score of a rung: the mix, and the seed of silences at random places. */
export interface ScoreChoice {
  readonly mix?: string;
  readonly draw?: string;
}

export interface OpenedScore {
  readonly rung: Rung;
  readonly score: Score;
  /** What may have been played instead. */
  readonly others: Iterable<Score>;
  /** Instruments for which the drill is written. */
  readonly players: readonly string[];
}

/** The score of FILE DRILL RUNG in a mix; in the default mix of the rung when none is named. */
export function openScore(
  { sources }: Setting,
  [file, drill, rung]: readonly [string, string, string],
  { mix, draw }: ScoreChoice,
): Result<OpenedScore> {
  const opened = openRung(file, drill, rung, sources);
  if (!opened.ok) return opened;
  const named = mix === undefined ? undefined : findMix(opened.value.drill, mix);
  if (named?.ok === false) return failureIn(file, named.problems);
  const { name, edition, drills } = opened.value.course;
  const score = scoreOf(opened.value.rung, named?.value.name, draw);
  const players = opened.value.drill.players.map(({ instrument }) => instrument.name);
  const others = otherScores(opened.value.rung, drills);
  return success({ rung: opened.value.rung, others, players, score: { curriculum: name, edition, ...score } });
}

/** Adds the option for the seed of silences at random places. */
export function drawOption(command: Command): Command {
  return command.option("--draw <NAME>", "draws silences at random places anew: any name, the same for score and take");
}
