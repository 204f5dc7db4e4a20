import type { Problem } from "../index.js";
import type { Sources } from "./input/courseFile.js";
import { problemText } from "./output/problemText.js";
import type { Terminal } from "./terminal.js";

/** How a command ended, as scripts see it: done, the input has problems, or the command line was misused. */
export const DONE = 0;
export const PROBLEMS = 1;
export const MISUSE = 2;
export type Outcome = typeof DONE | typeof PROBLEMS | typeof MISUSE;

/** Where a command works and how it answers. */
export interface Setting {
  readonly terminal: Terminal;
  /** Answers as JSON. */
  readonly json: boolean;
  readonly sources: Sources;
}

/** One line of JSON. */
export function printJson({ terminal }: Setting, value: unknown): void {
  terminal.print(`${JSON.stringify(value)}\n`);
}

/** The problems that stopped a command: as JSON where the answer was expected, or on standard error. */
export function refuse(setting: Setting, problems: readonly Problem[]): Outcome {
  if (setting.json) printJson(setting, { problems });
  else tellProblems(setting, problems);
  return PROBLEMS;
}

/** Problems on standard error, for people. */
export function tellProblems({ terminal, sources }: Setting, problems: readonly Problem[]): void {
  for (const each of problems) terminal.tell(problemText(each, { sources, colour: terminal.colours.tell }));
}
