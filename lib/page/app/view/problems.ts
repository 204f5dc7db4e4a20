import type { Problem } from "../../../base/index.js";
import type { Words } from "../../../words/index.js";
import { h } from "./element.js";

/** Problems as a list: what is wrong, where, and what to do. */
export function problemList(problems: readonly Problem[], words: Words): HTMLElement {
  return h(
    "ul",
    { class: "problems" },
    problems.map((problem) => problemItem(problem, words)),
  );
}

function problemItem({ message, remedy, where, words: said, severity, code }: Problem, words: Words): HTMLElement {
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
  );
}
