import { fill, h } from "../../app/view/element.js";
import { ask, at } from "../../school/ask.js";
import type { SchoolClass } from "../../school/model.js";
import { dateText } from "../date.js";
import { dateField, selectField, textField } from "../fields.js";
import { type ClassPage, type ClassView, courseTitle } from "../page.js";
import { placeText } from "../route.js";
import { refusalText } from "../states.js";

/** The classes of a teacher, and a new one. */
export async function showClasses(page: ClassPage): Promise<ClassView> {
  const { words, me } = page;
  const title = words.say("school.classes");
  const { classes } = me!;
  return {
    title,
    body: [
      h("div", { class: "head" }, h("h1", {}, title)),
      classes.length === 0
        ? h("p", {}, words.say("school.no-classes"))
        : h(
            "ul",
            { class: "register" },
            classes.map((each) => classItem(page, each)),
          ),
      beginForm(page),
    ],
  };
}

function classItem(page: ClassPage, made: SchoolClass): HTMLElement {
  return h(
    "li",
    {},
    h("h2", {}, h("a", { href: placeText({ view: "class", of: made.name }) }, made.name)),
    h("p", {}, classLine(page, made)),
  );
}

/** "Quayside first course, 1 Sep 2026 to 18 Dec 2026". */
function classLine(page: ClassPage, { course, from, to }: SchoolClass): string {
  const { words } = page;
  const dates = from === undefined ? (to === undefined ? "none" : "to") : to === undefined ? "from" : "both";
  const text = (day: string | undefined): string => (day === undefined ? "" : dateText(day, words));
  const title = courseTitle(page, course);
  return words.say("school.class-line", { dates, course: title, from: text(from), to: text(to) });
}

function beginForm(page: ClassPage): HTMLFormElement {
  const { words, courses } = page;
  const answer = h("div", { role: "alert" });
  const form = h(
    "form",
    { class: "rule", "aria-labelledby": "begin-class" },
    h("h2", { id: "begin-class" }, words.say("school.begin-class")),
    h(
      "div",
      { class: "pair" },
      textField("name", words.say("school.class-name"), { hint: words.say("school.class-name-hint"), required: true }),
      selectField(
        "course",
        words.say("school.class-course"),
        courses.map(({ name, title }) => ({ value: name, label: title })),
      ),
      dateField("from", words.say("school.class-from")),
      dateField("to", words.say("school.class-to")),
    ),
    answer,
    h("div", { class: "presses" }, h("button", { class: "go", type: "submit" }, words.say("school.begin"))),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void begin(page, new FormData(form), answer);
  });
  return form;
}

async function begin(page: ClassPage, said: FormData, answer: HTMLElement): Promise<void> {
  const given = [...said].map(([name, value]) => [name, `${value}`.trim()] as const);
  const body = Object.fromEntries(given.filter(([, value]) => value !== ""));
  const begun = await ask<SchoolClass>(at("classes"), { method: "POST", body });
  if (begun.ok) page.go({ view: "people", of: begun.value.name });
  else fill(answer, refusalText(page.words, begun.refusal));
}
