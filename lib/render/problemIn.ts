import type { Message, MessageText, Problem } from "../base/index.js";
import type { Given, KeyIn, MessageParameters } from "../words/index.js";
import { sayProblem } from "./say.js";

/** The messages that tell where another problem was found. */
type Placing = {
  [Key in KeyIn<"render-problem">]: MessageParameters[Key] extends { readonly problem: MessageText } ? Key : never;
}[KeyIn<"render-problem">];

/** A problem that was found in a part or a drill, with the name of that in its message. */
export function problemIn<Key extends Placing>(
  found: Problem,
  key: Key,
  place: Omit<MessageParameters[Key], "problem">,
): Problem {
  const { says } = sayProblem(key, ...([{ ...place, problem: found.message }] as unknown as Given<Key>));
  // A wording takes any message for a part of a sentence.
  const inner = (found.words?.message ?? found.message) as MessageText;
  const message: Message = { key, parameters: { ...place, problem: inner } };
  return { ...found, message: says, words: { ...found.words, message } };
}
