import { columnsOf, type Phrase, padColumns } from "../base/index.js";
import {
  cautionsIn,
  english,
  planInEnglish,
  settingInEnglish,
  settingPhrases,
  valueInEnglish,
  type Words,
  wordsOf,
} from "../words/index.js";
import type { Plan, PlanLine, PlayLine } from "./model.js";
import { say } from "./say.js";

const KINDS = ["warm-up", "new-work", "build-up", "preparation", "review", "rest"] as const;
/** Fewest columns for the kind of a line. */
const KIND = 9;

/** What plans say. */
export type PlanWords = Words<"plan" | "setting">;

export const ENGLISH: PlanWords = /* @__PURE__ */ wordsOf(english, {
  ...planInEnglish,
  ...settingInEnglish,
  ...valueInEnglish,
});

/**
 * A plan as plain text: a head line, each line of the plan with why and what follows, then outlook, advice and cautions; in English when no words are given.
 *
 * @example
 * planText(plan).startsWith("tern, 2026-03-12") // true
 */
export function planText(plan: Plan, words: PlanWords = ENGLISH): string {
  const { student, today, minutes, cautions } = plan;
  const head = words.say("plan.head", { student, today, used: Math.ceil(plan.seconds / 60), minutes });
  const lines = plan.lines.map((line) => {
    const said = [words.word(line.message, line.because), ...followTexts(line, words)];
    return `${clock(line.from)}  ${lineText(line, words)}${said.map((each) => `\n         ${each}`).join("")}`;
  });
  const said = adviceTexts(plan, words);
  return [head, ...lines, ...(said.length === 0 ? [] : ["", ...said]), "", ...cautionsIn(words, cautions), ""].join(
    "\n",
  );
}

/** What can be reached by a day, when that was asked, and the advice. */
export function adviceTexts({ outlook, advice, messages }: Plan, words: PlanWords): readonly string[] {
  const first = outlook === undefined ? [] : [words.word(outlook.message, outlook.says)];
  return [...first, ...advice.map((said, i) => words.word(messages[i], said))];
}

/** What follows from how the takes of a line go, a sentence each. */
export function followTexts(line: PlanLine, words: PlanWords): readonly string[] {
  return line.kind === "rest" ? [] : line.follows.map((said, i) => words.word(line.followMessages[i], said));
}

/** One line of a plan as text: "new work   Half a bar of silence, 4 takes: rung 1, tempo 76, mix play". */
export function lineText(line: PlanLine, words: PlanWords = ENGLISH): string {
  const width = KINDS.reduce(
    (widest, each) => Math.max(widest, columnsOf(words.say("plan.kind", { kind: each }))),
    KIND,
  );
  const named = words.say("plan.kind", { kind: line.kind === "new work" ? "new-work" : line.kind });
  const kind = padColumns(named, width);
  if (line.kind === "rest") return `${kind}  ${words.say("plan.minutes", { minutes: Math.round(line.seconds / 60) })}`;
  const { title, takes, mix } = line;
  return `${kind}  ${words.say("plan.takes", { title, takes, mix, rung: rungPhrases(line) })}`;
}

/** "rung 3, tempo 84, riff plain". */
function rungPhrases({ number, rung }: PlayLine): readonly (string | Phrase)[] {
  const first = number === null ? say("plan.no-rung") : say("plan.rung", { number });
  return [first.message, ...settingPhrases(rung)];
}

/** Minutes and seconds from the start: " 4:05". */
function clock(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  return `${String(minutes).padStart(4)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
}
