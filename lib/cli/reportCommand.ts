import { type Command, Option } from "commander";
import { wholeNumber } from "./numbers.js";
import type { Outcome, Setting } from "./outcome.js";
import { FORMATS, type ReportOptions, reportOut, TABLES } from "./report.js";
import { storeOption } from "./storeCommands.js";

/** Adds `report` to the program; `act` is given what to do once the words are read. */
export function reportCommand(
  command: (name: string, description: string) => Command,
  act: (run: (setting: Setting) => Outcome | Promise<Outcome>) => void,
): void {
  storeOption(command("report", "who is where, who is stuck and on what, and drift in silences over weeks"))
    .argument("[STUDENT...]", "everybody when left out")
    .option("--course <NAME>", "only in this course")
    .addOption(new Option("--as <FORMAT>", "how to answer").choices(FORMATS))
    .addOption(new Option("--table <T>", "with --as csv: which table").choices(TABLES))
    .option("--width <PX>", "with --as svg: 280 to 2000, 360 for phones", wholeNumber(280, 2000))
    .option("--out <FILE>", "the file to write; standard output when left out")
    .option("--since <DATE>", "count takes from this day on, such as 2026-03-02")
    .option("--at <TIME>", "as it was at this time (RFC 3339); now when left out")
    .action((students: readonly string[], options: ReportOptions) => {
      act((setting) => reportOut(setting, students, options));
    });
}
