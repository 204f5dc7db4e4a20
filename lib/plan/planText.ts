import type { Phrase } from "../base/index.js";
import { english, planInEnglish, type Words, wordsOf } from "../words/index.js";
import type { Plan, PlanLine, PlayLine } from "./model.js";
import { say } from "./say.js";
import { settingPhrases } from "./settingPhrases.js";

const ENGLISH: Words<"plan"> = /* @__PURE__ */ wordsOf(english, planInEnglish);

/**
 * A plan as plain text: a head line, two lines for each line of the plan, then outlook, advice and cautions; in English when no words are given.
 *
 * @example
 * planText(plan).startsWith("tern, 2026-03-12") // true
 */
export function planText(plan: Plan, words: Words<"plan"> = ENGLISH): string {
  const { student, today, minutes } = plan;
  const head = words.say("plan.head", { student, today, used: Math.ceil(plan.seconds / 60), minutes });
  const lines = plan.lines.map((line) => {
    const because = words.word(line.message, line.because);
    return `${clock(line.from)}  ${lineText(line, words)}\n         ${because}`;
  });
  const advice = plan.advice.map((said, i) => words.word(plan.messages[i], said));
  const said = [
    ...(plan.outlook === undefined ? [] : [words.word(plan.outlook.message, plan.outlook.says)]),
    ...advice,
  ];
  return [head, ...lines, ...(said.length === 0 ? [] : ["", ...said]), "", ...plan.cautions, ""].join("\n");
}

/** One line of a plan as text: "new work   Half a bar of silence, 4 takes: rung 1, tempo 76, mix play". */
export function lineText(line: PlanLine, words: Words<"plan"> = ENGLISH): string {
  const kind = words.say("plan.kind", { kind: line.kind === "new work" ? "new-work" : line.kind }).padEnd(9);
  if (line.kind === "rest") return `${kind}  ${words.say("plan.minutes", { minutes: Math.round(line.seconds / 60) })}`;
  const { title, takes, mix } = line;
  return `${kind}  ${words.say("plan.takes", { title, takes, mix, rung: rungPhrases(line) })}`;
}

/** "rung 3, tempo 84, variant plain". */
function rungPhrases({ number, rung }: PlayLine): readonly Phrase[] {
  return [say("plan.rung", { number }).message, ...settingPhrases(rung)];
}

/** Minutes and seconds from the start: " 4:05". */
function clock(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  return `${String(minutes).padStart(4)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
}
