import type { MessageText, Phrase, Worded } from "./message.js";
import type { Problem } from "./problem.js";

/** A message that holds the sentence of a problem. */
type Around = Worded<{ readonly key: string; readonly parameters: { readonly problem: MessageText } }>;

/**
 * A problem whose sentence is put inside another: "in E flat major, ..." around what is out of range there. The message that is around it
 * holds the message that is inside, so that both are worded in one language.
 */
export function problemInside(problem: Problem, around: (sentence: string) => Around): Problem {
  const { says, message } = around(problem.message);
  const inside = problem.words?.message as Phrase | undefined;
  const parameters = { ...message.parameters, ...(inside === undefined ? {} : { problem: inside }) };
  return { ...problem, message: says, words: { ...problem.words, message: { key: message.key, parameters } } };
}
