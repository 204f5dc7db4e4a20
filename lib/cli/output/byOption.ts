import type { Message, MessageText, Problem } from "../../base/index.js";
import { sayProblem } from "../say.js";

/** Codes of the library -> the option of the command line by which their remedy is done. */
const OPTIONS: Readonly<Record<string, string>> = {
  COURSE_NOT_CHOSEN: "--course",
  COURSE_NOT_KEPT: "--course",
  DRILL_NOT_CHOSEN: "--drill",
  TAKE_SEVERAL_TRACKS: "--track",
};

/** The problem with the option that does what its remedy says; a library cannot know the options of a command line. */
export function byOption(problem: Problem): Problem {
  const option = Object.hasOwn(OPTIONS, problem.code) ? OPTIONS[problem.code] : undefined;
  if (option === undefined || problem.remedy === undefined) return problem;
  const key = "cli-problem.remedy-by-option";
  const { says } = sayProblem(key, { remedy: problem.remedy, option });
  // A wording takes any message for a part of a sentence.
  const inner = (problem.words?.remedy ?? problem.remedy) as MessageText;
  const remedy: Message = { key, parameters: { remedy: inner, option } };
  return { ...problem, remedy: says, words: { ...problem.words, remedy } };
}
