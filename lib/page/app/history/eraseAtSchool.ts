import { ask, at } from "../../school/ask.js";
import type { Erased } from "../../school/model.js";
import type { Page } from "../page.js";
import { fill, h } from "../view/element.js";

/** A student's own end at the school that the page came from: their name is written once more, and then nothing asks again. */
export function eraseAtSchool({ words }: Page, name: string, eraseHere: () => Promise<boolean>): HTMLElement {
  const answer = h("div", { role: "alert" });
  const field = h("input", { type: "text", id: "erase-name", autocomplete: "off", maxlength: 200 });
  const form = h(
    "form",
    { "aria-label": words.say("page.school-erase-do") },
    h("p", {}, words.say("page.school-erase-own")),
    h(
      "div",
      { class: "field" },
      h("label", { class: "label", for: "erase-name" }, words.say("page.school-erase-name", { student: name })),
      field,
    ),
    h("div", { class: "presses" }, h("button", { type: "submit" }, words.say("page.school-erase-do"))),
    answer,
  );
  const erase = async (): Promise<void> => {
    if (field.value.trim() !== name)
      return fill(answer, h("p", {}, words.say("page.school-erase-other", { student: name })));
    const path = `${at("students", name)}?${new URLSearchParams({ confirm: name })}`;
    const erased = await ask<Erased>(path, { method: "DELETE" });
    // Erased before, with the answer lost: whoever asks again is not known there any more.
    if (!erased.ok && erased.refusal.status !== 401)
      return fill(answer, h("p", {}, words.say("page.school-erase-failed")));
    if (!(await eraseHere())) return;
    const places = erased.ok ? erased.value.elsewhere : [];
    form.replaceChildren(
      h(
        "div",
        { role: "alert" },
        h("p", {}, words.say("page.school-erased", { student: name })),
        h(
          "ul",
          {},
          places.map((place) => h("li", {}, place)),
        ),
      ),
      // The page is loaded anew, as nobody is signed in any more.
      h("a", { class: "button", href: "./" }, words.say("page.school-erased-on")),
    );
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void erase();
  });
  return form;
}
