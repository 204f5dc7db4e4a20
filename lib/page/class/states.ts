import type { Words } from "../../words/index.js";
import { h } from "../app/view/element.js";
import { problemList } from "../app/view/problems.js";
import type { Refusal } from "../school/ask.js";
import type { Me } from "../school/model.js";
import type { ClassPage, ClassView } from "./page.js";

/** Where the practice page is, seen from the page of a class. */
export const PRACTICE = "../";

/** The school did not answer, or could not. */
export function notReached(words: Words, again: () => void): ClassView {
  const title = words.say("school.not-reached");
  return {
    title,
    body: [
      h("h1", {}, title),
      h("p", { class: "lead" }, words.say("school.not-reached-is")),
      h("div", { class: "presses" }, pressAgain(words, again)),
    ],
  };
}

/** The school refused what a view needs. */
export function refusedView({ words, again }: ClassPage, refusal: Refusal): ClassView {
  if (refusal.status === 0 || refusal.status >= 500) return notReached(words, again);
  const title = words.say("school.refused");
  return {
    title,
    body: [
      h("h1", {}, title),
      refusalText(words, refusal),
      h(
        "div",
        { class: "presses" },
        pressAgain(words, again),
        h("a", { class: "button", href: "#/" }, words.say("school.go-to-classes")),
      ),
    ],
  };
}

/** Why the school refused something: its problems, or that it was not reached; and how long to wait. */
export function refusalText(words: Words, { status, code, problems, wait }: Refusal): HTMLElement {
  return h(
    "div",
    {},
    status === 0
      ? h(
          "p",
          {},
          words.say("school.sentence", { text: words.say("school.not-reached") }),
          " ",
          words.say("school.not-reached-is"),
        )
      : problems.length > 0
        ? problemList(problems, words)
        : h("p", {}, words.say("school.refused-code", { code: code || `${status}` })),
    wait !== undefined && h("p", {}, words.say("school.wait", { seconds: wait })),
  );
}

export function nobodyHere({ words }: ClassPage): ClassView {
  const title = words.say("school.nobody");
  return {
    title,
    body: [h("h1", {}, title), h("p", { class: "lead" }, words.say("school.nobody-is")), toPractice(words)],
  };
}

export function notForStudents({ words }: ClassPage, { name }: Me): ClassView {
  const title = words.say("school.not-for-students");
  return {
    title,
    body: [
      h("h1", {}, title),
      h("p", { class: "lead" }, words.say("school.not-for-students-is", { name })),
      toPractice(words),
    ],
  };
}

export function toPractice(words: Words): HTMLElement {
  return h(
    "div",
    { class: "presses" },
    h("a", { class: "button go", href: PRACTICE }, words.say("school.go-practise")),
  );
}

function pressAgain(words: Words, again: () => void): HTMLElement {
  return h("button", { type: "button", class: "go", click: again }, words.say("school.try-again"));
}
