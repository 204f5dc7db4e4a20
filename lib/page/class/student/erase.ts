import { fill, h } from "../../app/view/element.js";
import { ask, at } from "../../school/ask.js";
import type { Erased, SchoolClass } from "../../school/model.js";
import { textField } from "../fields.js";
import type { ClassPage } from "../page.js";
import { placeText } from "../route.js";
import { refusalText } from "../states.js";

/** The end of everything kept of a student, once their name was written again. */
export function eraseSection(page: ClassPage, of: SchoolClass, student: string): Node[] {
  const { words } = page;
  const answer = h("div", { role: "alert" });
  const form = h(
    "form",
    {},
    h("p", {}, words.say("school.erase-is", { student })),
    textField("sure", words.say("school.erase-name", { student }), { required: true }),
    answer,
    h("div", { class: "presses" }, h("button", { type: "submit" }, words.say("school.erase-do"))),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const said = `${new FormData(form).get("sure") ?? ""}`.trim();
    // The school compares once more; what is written wrong is not even sent.
    if (said !== student) fill(answer, h("p", {}, words.say("school.erase-name-other", { student })));
    else void erase(page, of, { student, answer });
  });
  return [form];
}

async function erase(
  page: ClassPage,
  of: SchoolClass,
  { student, answer }: { readonly student: string; readonly answer: HTMLElement },
): Promise<void> {
  const { words } = page;
  const sent = await ask<Erased>(`${at("students", student)}?confirm=${encodeURIComponent(student)}`, {
    method: "DELETE",
  });
  if (!sent.ok) return fill(answer, refusalText(words, sent.refusal));
  const { events, elsewhere } = sent.value;
  const title = words.say("school.erased", { student });
  const heading = h("h1", { tabindex: -1 }, title);
  fill(
    document.querySelector("main")!,
    heading,
    h("p", { class: "lead" }, words.say("school.erased-is", { events })),
    h("p", {}, words.say("school.erased-elsewhere")),
    h(
      "ul",
      { class: "steps" },
      elsewhere.map((place) => h("li", {}, place)),
    ),
    h(
      "div",
      { class: "presses" },
      h("a", { class: "button go", href: placeText({ view: "class", of: of.name }) }, of.name),
    ),
  );
  document.title = title;
  heading.focus();
}
