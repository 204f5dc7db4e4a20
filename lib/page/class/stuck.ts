import { placeWords, stickingWords, tallyWords } from "../../report/index.js";
import type { Report, StudentPlace } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import { h } from "../app/view/element.js";
import type { SchoolClass } from "../school/model.js";
import { dateText } from "./date.js";
import type { ClassPage } from "./page.js";
import { placeText } from "./route.js";

/** Who is stuck, on what, and since when. */
export function stuckSection({ words }: ClassPage, of: SchoolClass, { students }: Report): HTMLElement {
  const stuck = students.flatMap(({ student, courses }) =>
    courses.flatMap(({ places }) =>
      places.filter(({ stall }) => stall !== undefined).map((place) => ({ student, place })),
    ),
  );
  return h(
    "section",
    { "aria-labelledby": "stuck" },
    h("h2", { id: "stuck" }, words.say("school.stuck")),
    stuck.length === 0
      ? h("p", {}, words.say("school.nobody-stuck"))
      : h(
          "ul",
          { class: "register" },
          stuck.map(({ student, place }) =>
            h(
              "li",
              { class: "stuck-here" },
              h("h3", {}, h("a", { href: placeText({ view: "student", of: of.name, student }) }, student)),
              h("div", {}, stuckLines(words, place)),
            ),
          ),
        ),
  );
}

/** Where somebody is stuck, since when, and on what. */
export function stuckLines(words: Words, place: StudentPlace): readonly HTMLElement[] {
  const { stall, stuckAfter } = place;
  if (stall === undefined) return [];
  const since = words.say("report.called-stuck", {
    since: dateText(stall.since, words),
    takes: tallyWords(stall.takes, words),
    after: typeof stuckAfter === "number" ? stuckAfter : 0,
  });
  return [
    h("p", {}, words.say("school.stuck-at", { drill: place.title ?? place.drill, place: placeWords(place, words) })),
    h(
      "ul",
      { class: "steps" },
      stall.on.map((each) => h("li", {}, stickingWords(each, words))),
    ),
    h("p", { class: "small" }, since),
  ];
}
