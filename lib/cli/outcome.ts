import type { Problem } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { cautionsIn, type Words } from "../words/index.js";
import type { Sources } from "./input/courseFile.js";
import { byOption } from "./output/byOption.js";
import { plain } from "./output/printableText.js";
import { problemText } from "./output/problemText.js";
import type { Terminal } from "./terminal.js";

/** Exit status of a command: done, problems in the input, or misuse of the command line. */
export const DONE = 0;
export const PROBLEMS = 1;
export const MISUSE = 2;
export type Outcome = typeof DONE | typeof PROBLEMS | typeof MISUSE;

/** The surroundings of a command, and its form of output. */
export interface Setting {
  readonly terminal: Terminal;
  /** Whether the output is JSON. */
  readonly json: boolean;
  readonly sources: Sources;
  /** Words of the note line that the answer has explained. */
  readonly explained: Set<string>;
  /** The language of the answer. */
  readonly words: Words;
  /** The setting in the language of a course that was found only now, unless another was asked for. */
  readonly inLanguageOf: (course: Pick<Curriculum, "imprint">) => Promise<Setting>;
}

/** Says why a command line cannot be meant, on standard error. */
export function misuse({ terminal }: Pick<Setting, "terminal">, why: string): typeof MISUSE {
  terminal.tell(`leeway: ${plain(why)}\n`);
  return MISUSE;
}

/** One line of JSON. */
export function printJson({ terminal }: Setting, value: unknown): void {
  terminal.print(`${JSON.stringify(value)}\n`);
}

/** Prints the problems that stopped a command: as JSON on standard output, or as text on standard error. */
export function refuse(setting: Setting, problems: readonly Problem[]): Outcome {
  if (setting.json) printJson(setting, { problems: problems.map(byOption) });
  else tellProblems(setting, problems);
  return PROBLEMS;
}

/** Prints problems as text on standard error. */
export function tellProblems({ terminal, sources, words, explained }: Setting, problems: readonly Problem[]): void {
  const shown = { sources, colour: terminal.colours.tell, words, explained };
  for (const each of problems) terminal.tell(problemText(byOption(each), shown));
}

/** Tells people the cautions about loudness and strain beside an answer, on standard error: no program has to read past them. */
export function tellCautions({ terminal, json, words }: Setting, cautions?: readonly string[]): void {
  if (!json) terminal.tell(`${cautionsIn(words, cautions).join("\n")}\n`);
}
