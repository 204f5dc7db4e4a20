import type { Finding } from "../../schema/index.js";
import { assess, driftTrends } from "../../take/index.js";
import type { Act, AddCommand } from "../command.js";
import { pictureNames } from "../fileNames.js";
import { takeOptions } from "../options/takeOptions.js";
import { DONE, type Outcome, PROBLEMS, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { findingText } from "../output/findingText.js";
import { type NamedTake, readTakes, type TakeOptions, takeName } from "../takes/readTakes.js";
import { drawOption, type OpenedScore, openScore, type ScoreChoice } from "./score.js";

export interface AssessmentOptions extends TakeOptions, ScoreChoice {
  /** Folder for a chart of each take. */
  readonly pictures?: string;
}

/** Adds `assess` to the program. */
export function assessCommand(command: AddCommand, act: Act): void {
  const assessing = takeOptions(command("assess", "what each take of a rung showed"))
    .argument("<FILE>")
    .argument("<DRILL>")
    .argument("<RUNG>")
    .argument("<TAKE...>")
    .option("--mix <M>", "the mix played to; the drill's first when left out");
  drawOption(assessing)
    .option("--pictures <DIR>", "a folder for a picture of each take (SVG)")
    .action((file: string, drill: string, rung: string, takes: readonly string[], options: AssessmentOptions) =>
      act((setting) => assessment(setting, [file, drill, rung, ...takes], options)),
    );
}

/** `leeway assess FILE DRILL RUNG TAKE...`: the finding of each take, in the given order. */
async function assessment(
  setting: Setting,
  [file, drill, rung, ...takes]: readonly [string, string, string, ...string[]],
  options: AssessmentOptions,
): Promise<Outcome> {
  const opened = openScore(setting, [file, drill, rung], options);
  if (!opened.ok) return refuse(setting, opened.problems);
  const { score, others, players } = opened.value;
  let outcome: Outcome = DONE;
  let first = true;
  const nameOf = pictureNames();
  const findings: Finding[] = [];
  for (const argument of takes) {
    for (const named of await readTakes(argument, options, { terminal: setting.terminal, score, players })) {
      if (!first && !setting.json) setting.terminal.print("\n");
      first = false;
      const finding = answer(setting, named, { score, others });
      const problems =
        finding === undefined || options.pictures === undefined || !named.take.ok
          ? []
          : await (await import("./takePicture.js")).writePicture(options.pictures, nameOf, {
              score,
              take: named.take.value,
              finding,
              words: setting.words,
            });
      tellProblems(setting, problems);
      if (finding !== undefined) findings.push(finding);
      if (finding === undefined || problems.length > 0) outcome = PROBLEMS;
    }
  }
  if (!setting.json)
    for (const { sentence, message } of driftTrends(findings))
      setting.terminal.print(`\n${setting.words.word(message, sentence)}\n`);
  return outcome;
}

/** Prints the finding, or the problems instead. */
function answer(
  setting: Setting,
  { name, take }: NamedTake,
  { score, others }: Pick<OpenedScore, "score" | "others">,
): Finding | undefined {
  if (!take.ok) {
    if (setting.json) printJson(setting, { take: name, problems: take.problems });
    else tellProblems(setting, take.problems);
    return undefined;
  }
  const finding: Finding = {
    ...assess(score, take.value, { others }),
    take: take.value.id ?? takeName(name, take.value),
  };
  if (setting.json) printJson(setting, finding);
  else {
    tellProblems(setting, finding.advice ?? []);
    setting.terminal.print(
      findingText(finding, score, { colour: setting.terminal.colours.print, words: setting.words }),
    );
  }
  return finding;
}
