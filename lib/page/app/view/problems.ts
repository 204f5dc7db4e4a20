import type { Problem } from "../../../base/index.js";
import { explainNoteWords, type Words } from "../../../words/index.js";
import { h } from "./element.js";

/** Problems as a list: what is wrong, where, and what to do; what a word of the note line means stands where it is met first. */
export function problemList(problems: readonly Problem[], words: Words): HTMLElement {
  const explained = new Set<string>();
  return h(
    "ul",
    { class: "problems" },
    problems.map((problem) => problemItem(problem, explained, words)),
  );
}

function problemItem(problem: Problem, explained: Set<string>, words: Words): HTMLElement {
  const { message, remedy, where, words: said, severity, code } = problem;
  const line = where.line;
  return h(
    "li",
    { class: "problem", "data-code": code },
    h(
      "p",
      { class: "kicker" },
      words.say("page.severity", { severity }),
      line !== undefined && ` · ${words.say("page.at-line", { line, column: where.column ?? 1 })}`,
    ),
    h("p", {}, words.word(said?.message, message)),
    remedy !== undefined && h("p", {}, words.say("page.remedy", { remedy: words.word(said?.remedy, remedy) })),
    explainNoteWords(problem, explained, words).map((note) => h("p", { class: "note" }, note)),
  );
}
