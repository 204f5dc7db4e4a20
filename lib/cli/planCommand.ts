import { type Command, InvalidArgumentError } from "commander";
import type { Outcome, Setting } from "./outcome.js";
import { type PlanOptions, planOut } from "./plan.js";
import { storeOption } from "./storeCommands.js";

/** Adds `plan` to the program; `act` is given what to do once the words are read. */
export function planCommand(
  command: (name: string, description: string) => Command,
  act: (run: (setting: Setting) => Outcome | Promise<Outcome>) => void,
): void {
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
    .option("--drill <D>", "with --ready-by: the drill that must be complete; all in work when left out")
    .option("--days-a-week <N>", "with --ready-by: days of practice a week; 5 when left out", amount)
    .option("--calendar <TIME>", "answer with a calendar file (iCalendar) of a session at this time, such as 17:30")
    .action((student: string, options: PlanOptions) => {
      act((setting) => planOut(setting, student, options));
    });
}

/** Reads a number of an option; anything else is misuse. */
function amount(text: string): number {
  if (!/^\d+(?:\.\d+)?$/.test(text)) throw new InvalidArgumentError("It must be a number such as 20.");
  return Number(text);
}
