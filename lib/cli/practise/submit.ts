import {
  assess,
  CAUTIONS,
  type Decision,
  decide,
  findRung,
  type Problem,
  type Result,
  type Score,
  type Standing,
  scoreOf,
  success,
  type Take,
  takeIn,
} from "../../index.js";
import { record, type Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { takeOptions } from "../options/takeOptions.js";
import { type Outcome, printJson, type Setting, tellProblems } from "../outcome.js";
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
  setting: Setting,
  [student, ...takes]: readonly [string, ...string[]],
  options: SubmissionOptions,
): Promise<Outcome> | Outcome {
  return withWork(setting, { student, options }, async (store, work) => {
    const problems: Problem[] = [];
    let { standing } = work;
    for (const argument of takes) {
      const played = { terminal: setting.terminal, ...playedTo(work, options.mix) };
      for (const named of await readTakes(argument, options, played)) {
        const done = await submitOne(setting, store, { ...work, options, standing, named });
        if (done.ok) standing = done.value;
        else problems.push(...done.problems);
      }
    }
    if (!setting.json) {
      setting.terminal.print(nextText(standing));
      setting.terminal.tell(`${CAUTIONS.join("\n")}\n`);
    }
    return outcomeOf(problems);
  });
}

interface Submitted extends Work {
  readonly options: SubmissionOptions;
  readonly named: NamedTake;
}

async function submitOne(setting: Setting, store: Store, work: Submitted): Promise<Result<Standing>> {
  const { take, name } = work.named;
  if (!take.ok) {
    if (setting.json) printJson(setting, { take: name, problems: take.problems });
    else tellProblems(setting, take.problems);
    return take;
  }
  const id = take.value.id ?? takeName(name, take.value);
  const { score, finding } = assessed(work, id, take.value);
  const decision = await record(store, work.key, (journal) =>
    decide(work.course, journal?.standing ?? work.standing, finding, work.at),
  );
  const { what, drill, from, to, reason, evidence, opened, events, problems } = decision;
  if (setting.json)
    printJson(setting, {
      take: id,
      finding,
      decision: { what, drill, from, to, reason, evidence, opened },
      events,
      problems,
    });
  else {
    tellProblems(setting, [...(finding.advice ?? []), ...problems]);
    setting.terminal.print(findingText(finding, score, setting.terminal.colours.print));
    setting.terminal.print(decisionText(decision));
  }
  return outcomeOf(problems) === 0 ? success(decision.standing) : { ok: false, problems };
}

/** The finding of a take: at the rung for which it was counted before, else at the played rung. */
function assessed(
  { course, drill, rung, standing, options }: Submitted,
  id: string,
  take: Take,
): { readonly score: Score; readonly finding: ReturnType<typeof assess> } {
  const counted = takeIn(standing, id);
  const home = course.drills.find((each) => each.name === counted?.drill);
  const before = home && counted && findRung(home, counted.rung);
  const played = before?.ok ? before.value : rung;
  const isOther = before?.ok === true && home !== drill;
  const score: Score = {
    curriculum: course.name,
    edition: course.edition,
    ...scoreOf(played, isOther ? undefined : options.mix),
  };
  return { score, finding: { ...assess(score, take), take: id } };
}

function decisionText({ what, reason }: Decision): string {
  return `  ${what}: ${plain(reason)}\n\n`;
}
