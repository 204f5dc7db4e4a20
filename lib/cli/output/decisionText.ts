import type { Decision } from "../../progress/index.js";
import type { Words } from "../../words/index.js";

/** What a decision is, as the message names it. */
const WHAT = {
  advance: "advance",
  complete: "complete",
  "go back": "go-back",
  hold: "hold",
  "not counted": "not-counted",
} as const;

/** A decision with its reason: "hold: You need 3 clean takes out of your last 4; you have 1." `before`: the name of a take that was counted before. */
export function decisionText(
  { what, reason, messages }: Pick<Decision, "what" | "reason" | "messages">,
  words: Words,
  { before }: { readonly before?: string | undefined } = {},
): string {
  const said = messages.length === 0 ? reason : messages.map((message) => words.word(message, reason)).join(" ");
  const told = before === undefined ? said : words.say("cli.counted-before", { take: before, reason: said });
  return words.say("cli.decision", { what: WHAT[what], reason: told });
}
