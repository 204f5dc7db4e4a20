import { climbChart } from "../../../render/chart/index.js";
import { placeWords, tallyWords } from "../../../report/index.js";
import { chart, chartWidth } from "../../app/view/drawing.js";
import { h } from "../../app/view/element.js";
import { dateText } from "../date.js";
import { driftSection, landingsSection } from "../drift.js";
import { type ClassPage, type ClassView, courseTitle } from "../page.js";
import { type Place, placeText } from "../route.js";
import { refusedView } from "../states.js";
import { stuckLines } from "../stuck.js";
import { changes } from "../student/changes.js";
import { readRecord, type StudentRecord } from "../student/record.js";
import { takesSection } from "../student/takes.js";
import { wishesSection } from "../student/wishes.js";

type Asked = Extract<Place, { readonly view: "student" }>;

/** One student: where they stand, how they came there, their takes, and what a teacher can do. */
export async function showStudent(page: ClassPage, { of: name, student }: Asked): Promise<ClassView> {
  const { words } = page;
  const of = page.me!.classes.find((each) => each.name === name);
  const read = of && (await readRecord(name, student, of.course));
  if (of === undefined || read === undefined)
    return refusedView(page, { status: 404, code: "NOT_THERE", problems: [], wait: undefined });
  if (!read.ok) return refusedView(page, read.refusal);
  const { events, report, own } = read.value;
  const hasPlayed = events.some(({ kind }) => kind === "take assessed");
  return {
    title: `${student}, ${name}`,
    of,
    body: [
      h(
        "div",
        { class: "head" },
        h(
          "p",
          { class: "kicker" },
          h("a", { href: placeText({ view: "class", of: name }) }, name),
          ` · ${courseTitle(page, of.course)}`,
        ),
        h("h1", {}, student),
        absence(page, read.value),
      ),
      h(
        "div",
        { class: "two level" },
        h(
          "div",
          { class: "body" },
          standsSection(page, read.value),
          hasPlayed &&
            h(
              "section",
              { "aria-labelledby": "climb" },
              h("h2", { id: "climb" }, words.say("school.climb")),
              h("figure", {}, chart(climbChart(own, events, { width: chartWidth(), words }))),
            ),
          hasPlayed && driftSection(words, report.drift),
          hasPlayed && landingsSection(words, report.drift),
          takesSection(page, read.value),
          wishesSection(page, read.value),
        ),
        h("div", { class: "side" }, changes(page, of, read.value)),
      ),
    ],
  };
}

function absence({ words }: ClassPage, { student }: StudentRecord): HTMLElement | false {
  const { paused, erasedFrom } = student;
  if (paused === undefined && erasedFrom === undefined) return false;
  return h(
    "p",
    { class: "lead" },
    paused !== undefined &&
      words.say("school.sentence", { text: words.say("school.is-away", { date: dateText(paused, words) }) }),
    paused !== undefined && " ",
    erasedFrom !== undefined && words.say("school.is-erased", { date: dateText(erasedFrom, words) }),
  );
}

function standsSection({ words }: ClassPage, { report }: StudentRecord): HTMLElement {
  const course = report.students[0]?.courses[0];
  const places = course?.places ?? [];
  return h(
    "section",
    { "aria-labelledby": "stands" },
    h("h2", { id: "stands" }, words.say("school.where-now")),
    places.length === 0 && h("p", {}, words.say("school.nothing-open")),
    h(
      "ul",
      { class: "register" },
      places.map((place) =>
        h(
          "li",
          { class: place.stall !== undefined && "stuck-here" },
          h("h3", {}, place.title ?? place.drill),
          h("p", {}, placeWords(place, words)),
          h(
            "p",
            { class: "small" },
            words.say("school.takes-there", {
              since: dateText(place.since, words),
              takes: tallyWords(place.takes, words),
            }),
          ),
          stuckLines(words, place).slice(1),
        ),
      ),
    ),
  );
}
