import { type Score, settingsText } from "../index.js";
import { textStrip, textStripKey } from "../render/chart/index.js";
import { openScore, type ScoreChoice } from "./openScore.js";
import { DONE, type Outcome, printJson, refuse, type Setting } from "./outcome.js";
import { plain } from "./plain.js";
import { table } from "./table.js";

/** `leeway score FILE DRILL RUNG`: what the rung sounds like and what is expected of the student. */
export function scoreOut(setting: Setting, names: readonly [string, string, string], choice: ScoreChoice): Outcome {
  const opened = openScore(setting, names, choice);
  if (!opened.ok) return refuse(setting, opened.problems);
  const { rung, score } = opened.value;
  if (setting.json) {
    printJson(setting, score);
    return DONE;
  }
  setting.machine.print(scoreText(score, `rung ${rung.index}: ${settingsText(rung.settings)}`));
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
