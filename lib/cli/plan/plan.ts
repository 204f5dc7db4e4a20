import type { Result } from "../../base/index.js";
import { planCalendar } from "../../plan/calendar/index.js";
import { type Deadline, type Plan, type PlanRequest, planSession, planText } from "../../plan/index.js";
import { planFor } from "../../practice/index.js";
import type { Act, AddCommand } from "../command.js";
import { ValueMisuse } from "../options/misuse.js";
import { DONE, misuse, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { openEnrolled } from "../store/enrolledJournal.js";
import { type StoreOptions, storeOption, withStore } from "../store/openStore.js";
import { type PlanSource, sourceInFiles } from "./source.js";

export interface PlanOptions extends StoreOptions {
  readonly minutes: number;
  /** A course file, or the name of a course the student is in. */
  readonly course?: string;
  /** A journal file, instead of a store. */
  readonly journal?: string;
  readonly today?: string;
  readonly seed: string;
  /** Per cent. */
  readonly aim?: number;
  readonly takingTurns?: true;
  readonly readyBy?: string;
  readonly drill?: string;
  readonly daysAWeek?: number;
  /** Time of day at which the session begins; the output is then a calendar file. */
  readonly calendar?: string;
}

const CLOCK = /^([01]\d|2[0-3]):[0-5]\d$/;

/** Adds `plan` to the program. */
export function planCommand(command: AddCommand, act: Act): void {
  storeOption(command("plan", "what a student practises in so many minutes, and why"))
    .argument("<STUDENT>")
    .requiredOption("--minutes <M>", "minutes there are", amount)
    .option("--course <FILE|NAME>", "the course; the student's, as kept in the store, when left out")
    .option("--journal <FILE>", "a journal (JSON Lines) instead of the store; needs the file of the course")
    .option("--today <DATE>", "the day it is for, such as 2026-03-12; today (UTC) when left out")
    .option("--seed <S>", "settles what is equally good", "1")
    .option("--aim <PERCENT>", "chance of a clean take aimed at in new work; 85 when left out", amount)
    .option("--taking-turns", "drills take turns, take by take")
    .option("--ready-by <DATE>", "say whether the work will be complete by this day")
    .option("--drill <D>", "with --ready-by: the drill that must be complete; all that are begun when left out")
    .option("--days-a-week <N>", "with --ready-by: days of practice a week; 5 when left out", amount)
    .option("--calendar <TIME>", "answer with a calendar file (iCalendar) of a session at this time, such as 17:30")
    .action((student: string, options: PlanOptions) => {
      act((setting) => planOut(setting, student, options));
    });
}

/** `leeway plan STUDENT --minutes M`: what to practise in M minutes, from a store or from a journal file with its course. */
function planOut(setting: Setting, student: string, options: PlanOptions): Promise<Outcome> | Outcome {
  const { calendar, journal, course } = options;
  const { say } = setting.words;
  if (calendar !== undefined && !CLOCK.test(calendar)) {
    const asked = { option: "--calendar", example: "17:30", found: calendar };
    return misuse(setting, say("cli.misuse.time-of-day", asked));
  }
  if (journal === undefined)
    return withStore(setting, { ...options, create: false }, async (store) => {
      const enrolled = await openEnrolled(setting, store, { student, course });
      if (!enrolled.ok) return refuse(setting, enrolled.problems);
      const { setting: spoken, course: used, kept } = enrolled.value;
      const use = { course: used, ...(kept === undefined ? {} : { before: kept }) };
      return answer(spoken, await planFor(store, student, { ...use, ...asked(spoken, options) }), calendar);
    });
  if (course === undefined)
    return misuse(setting, say("cli.misuse.journal-needs-course", { journal: "--journal", course: "--course" }));
  const source = sourceInFiles(setting, student, { course, journal });
  if (!source.ok) return refuse(setting, source.problems);
  return answer(setting, planSession({ ...source.value, ...asked(setting, options) }), calendar);
}

/** The request of the options. */
function asked({ terminal }: Setting, options: PlanOptions): Omit<PlanRequest, keyof PlanSource> {
  return {
    today: options.today ?? terminal.now().slice(0, 10),
    minutes: options.minutes,
    seed: options.seed,
    ...(options.aim === undefined ? {} : { target: options.aim / 100 }),
    ...(options.takingTurns === undefined ? {} : { order: "taking turns" as const }),
    ...(options.readyBy === undefined ? {} : { deadline: deadlineOf(options.readyBy, options) }),
  };
}

function deadlineOf(on: string, { drill, daysAWeek }: PlanOptions): Deadline {
  return { on, ...(drill === undefined ? {} : { drill }), ...(daysAWeek === undefined ? {} : { daysAWeek }) };
}

/** Prints the plan: as a calendar file when asked for and not empty, as JSON, or as text. */
function answer(setting: Setting, planned: Result<Plan>, start: string | undefined): Outcome {
  if (!planned.ok) return refuse(setting, planned.problems);
  const { terminal, words } = setting;
  const plan = planned.value;
  if (start !== undefined && plan.lines.length > 0)
    terminal.print(planCalendar(plan, { start, now: terminal.now(), words }));
  else if (setting.json) printJson(setting, plan);
  else terminal.print(planText(plan, words).split("\n").map(plain).join("\n"));
  return DONE;
}

/** Reads a number of an option; any other text is misuse. */
function amount(text: string): number {
  if (!/^\d+(?:\.\d+)?$/.test(text))
    throw new ValueMisuse((say, option) => say("cli.misuse.amount", { option, example: "20", found: text }));
  return Number(text);
}
