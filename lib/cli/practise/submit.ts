import { type Failure, type Problem, type Result, success } from "../../base/index.js";
import { fillIn, submit } from "../../practice/index.js";
import type { Standing } from "../../schema/index.js";
import type { Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { takeOptions } from "../options/takeOptions.js";
import { type Outcome, printJson, type Setting, tellCautions, tellProblems } from "../outcome.js";
import { decisionText } from "../output/decisionText.js";
import { findingText } from "../output/findingText.js";
import { plain } from "../output/printableText.js";
import { nextText } from "../output/standingText.js";
import { outcomeOf, storeOption } from "../store/openStore.js";
import { type NamedTake, readTakes, type TakeOptions, takeName } from "../takes/readTakes.js";
import { playedTo, type Work, type WorkOptions, withWork } from "./takeContext.js";

export interface SubmissionOptions extends WorkOptions, TakeOptions {}

/** Adds `submit` to the program. */
export function submitCommand(command: AddCommand, act: Act): void {
  takeOptions(storeOption(command("submit", "assess takes at the student's rung, keep what they showed, and decide")))
    .argument("<STUDENT>")
    .argument("<TAKE...>")
    .option("--drill <D>", "the drill played; the one that is open when left out")
    .option("--rung <RUNG>", "the rung played; the student's when left out")
    .option("--mix <M>", "the mix played to; the drill's first when left out")
    .option("--course <FILE|NAME>", "the course; the student's, as kept in the store, when left out")
    .option("--at <TIME>", "the time of the takes (RFC 3339); now when left out")
    .action((student: string, takes: readonly string[], options: SubmissionOptions) =>
      act((setting) => submission(setting, [student, ...takes], options)),
    );
}

/**
 * `leeway submit STUDENT TAKE...`: assesses takes at the student's rung, stores their findings, and prints the decisions. All takes of one command count for the
 * rung of the student before it.
 */
function submission(
  before: Setting,
  [student, ...takes]: readonly [string, ...string[]],
  options: SubmissionOptions,
): Promise<Outcome> | Outcome {
  return withWork(before, { student, options }, async (store, work) => {
    const problems: Problem[] = [];
    const { setting } = work;
    let { standing } = work;
    for (const argument of takes) {
      const played = { terminal: setting.terminal, ...playedTo(work, options.mix) };
      for (const named of await readTakes(argument, options, played)) {
        const done = await submitOne(store, { ...work, options, standing, named });
        if (done.ok) standing = done.value;
        else problems.push(...done.problems);
      }
    }
    if (!setting.json) setting.terminal.print(nextText(standing, setting.words));
    tellCautions(setting);
    return outcomeOf(problems);
  });
}

interface Submission extends Work {
  readonly options: SubmissionOptions;
  readonly named: NamedTake;
}

async function submitOne(store: Store, work: Submission): Promise<Result<Standing>> {
  const { setting, course, before, at, student, standing, rung, options, named } = work;
  if (!named.take.ok) return refused(setting, named.name, named.take);
  const id = named.take.value.id ?? takeName(named.name, named.take.value);
  const { mix } = options;
  const { take, filled } = fillIn(
    { ...(mix === undefined ? {} : { mix }), ...named.take.value, id },
    { course, standing, rung },
  );
  const submitted = await submit(store, student, take, { course, at, ...(before === undefined ? {} : { before }) });
  if (!submitted.ok) return refused(setting, id, submitted);
  const { finding, score, decision, events, known } = submitted.value;
  const { messages: _, ...said } = decision;
  if (setting.json) printJson(setting, { take: id, filled, finding, decision: said, known, events, problems: [] });
  else {
    tellProblems(setting, finding?.advice ?? []);
    if (finding !== undefined && score !== undefined)
      setting.terminal.print(
        findingText(finding, score, { colour: setting.terminal.colours.print, words: setting.words }),
      );
    if (filled.includes("rung") && !known && options.rung === undefined)
      setting.terminal.print(`  ${setting.words.say("cli.no-rung-said")}\n`);
    setting.terminal.print(`  ${plain(decisionText(decision, setting.words, { before: known ? id : undefined }))}\n\n`);
  }
  return success(submitted.value.standing);
}

function refused(setting: Setting, take: string, failure: Failure): Failure {
  if (setting.json) printJson(setting, { take, problems: failure.problems });
  else tellProblems(setting, failure.problems);
  return failure;
}
