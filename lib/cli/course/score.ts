import type { Command } from "commander";
import { failureIn, type Result, success } from "../../base/index.js";
import { findMix, otherScores, type Rung, rungNumber, scoreOf, settingsText } from "../../drill/index.js";
import { textStrip, textStripKey } from "../../render/chart/index.js";
import type { Score } from "../../schema/index.js";
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
  setting.terminal.print(scoreText(score, `rung ${rungNumber(rung)}: ${settingsText(rung.settings)}`));
  return DONE;
}

function scoreText(score: Score, rung: string): string {
  const beats = score.beatUnit === undefined ? "" : ` (${score.beatUnit} at ${score.tempo})`;
  const parts = score.parts.map((part) => [
    plain(part.name),
    plain(part.instrument ?? ""),
    part.student ? `${part.does}, yours` : part.does,
    `${part.notes.length}`,
  ]);
  return [
    `${plain(score.drill)}, ${plain(rung)}, mix ${plain(score.mix)}\n`,
    `  ${score.countIn.toFixed(2)} s count-in, ${score.duration.toFixed(2)} s from bar 1, beat ${score.beat.toFixed(3)} s${plain(beats)}\n\n`,
    textStrip(score),
    textStripKey(score),
    "\n",
    table(["part", "instrument", "does", " notes"], parts),
    "\n",
    `  ${score.expected.length} onsets expected of you, ${score.dropouts.length} silences\n`,
  ].join("");
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
