import type { Message, MessageText, Problem } from "../../base/index.js";
import { sayProblem } from "../say.js";

/** Codes of the library -> the option of the command line by which their remedy is done. */
const OPTIONS: Readonly<Record<string, string>> = {
  COURSE_NOT_CHOSEN: "--course",
  DRILL_NOT_CHOSEN: "--drill",
  LETTER_WITHOUT_GLYPH: "--font",
  TAKE_SEVERAL_TRACKS: "--track",
};

/** How the command line does without a store. */
const WITHOUT_STORE = {
  begin: "leeway decide COURSE --journal FILE --student NAME >> FILE",
  plan: "leeway plan NAME --journal FILE --course COURSE --minutes M",
};

/** The problem with the option or the commands that do what its remedy says; a library cannot know those of a command line. */
export function byOption(problem: Problem): Problem {
  if (problem.remedy === undefined) return problem;
  // A wording takes any message for a part of a sentence.
  const inner = (problem.words?.remedy ?? problem.remedy) as MessageText;
  const option = Object.hasOwn(OPTIONS, problem.code) ? OPTIONS[problem.code] : undefined;
  if (problem.code === "COURSE_NOT_KEPT") {
    const { says, message } = sayProblem("cli-problem.course-not-kept-remedy", {
      command: "leeway enrol FILE STUDENT",
    });
    return { ...problem, remedy: says, words: { ...problem.words, remedy: message } };
  }
  const said =
    problem.code === "STORE_DRIVER_MISSING"
      ? sayProblem("cli-problem.remedy-without-store", { remedy: problem.remedy, ...WITHOUT_STORE })
      : option !== undefined && sayProblem("cli-problem.remedy-by-option", { remedy: problem.remedy, option });
  if (said === false) return problem;
  const remedy: Message = { ...said.message, parameters: { ...said.message.parameters, remedy: inner } };
  return { ...problem, remedy: said.says, words: { ...problem.words, remedy } };
}
