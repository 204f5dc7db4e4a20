import { placesChart } from "../../../render/chart/index.js";
import { placeWords, QUIET_DAYS, tallyWords } from "../../../report/index.js";
import type { Report } from "../../../schema/index.js";
import { chart, chartWidth } from "../../app/view/drawing.js";
import { h } from "../../app/view/element.js";
import { ask, at } from "../../school/ask.js";
import type { ClassReport, Listed, ListedStudent, SchoolClass } from "../../school/model.js";
import { dateText } from "../date.js";
import { driftSection, landingsSection } from "../drift.js";
import { type ClassPage, type ClassView, courseTitle } from "../page.js";
import { type Place, placeText } from "../route.js";
import { refusedView } from "../states.js";
import { stuckSection } from "../stuck.js";

type Asked = Extract<Place, { readonly view: "class" }>;

/** Who is where, who is stuck on what and since when, and how they keep time through silences. */
export async function showClass(page: ClassPage, { of: name, after }: Asked): Promise<ClassView> {
  const query = after === undefined ? "" : `?after=${encodeURIComponent(after)}`;
  const [reported, listed] = await Promise.all([
    ask<ClassReport>(`${at("classes", name, "report")}${query}`),
    ask<Listed<ListedStudent>>(`${at("classes", name, "students")}${query}`),
  ]);
  if (!reported.ok) return refusedView(page, reported.refusal);
  if (!listed.ok) return refusedView(page, listed.refusal);
  const of = page.me!.classes.find((each) => each.name === name)!;
  const { items } = listed.value;
  const { report, next } = reported.value;
  if (items.length === 0 && after === undefined) return emptyClass(page, of);
  const { words } = page;
  return {
    title: name,
    of,
    body: [
      heading(
        page,
        of,
        words.say(after === undefined && next === undefined ? "school.students-on" : "school.students-on-page", {
          course: courseTitle(page, of.course),
          students: items.length,
          date: dateText(report.at, words),
        }),
      ),
      stuckSection(page, of, report),
      h(
        "section",
        { "aria-labelledby": "where" },
        h("h2", { id: "where" }, words.say("school.where")),
        h("figure", {}, chart(placesChart(report, { width: chartWidth(), words }))),
      ),
      everybody(page, of, { report, students: items }),
      further(page, name, { after, next }),
      driftSection(words, report.drift),
      landingsSection(words, report.drift),
      explained(page),
      h("div", { class: "presses" }, h("button", { type: "button", click: () => print() }, words.say("school.print"))),
    ].filter((each) => each !== false),
  };
}

function heading(_page: ClassPage, { name }: SchoolClass, line: string): HTMLElement {
  return h("div", { class: "head" }, h("h1", {}, name), h("p", { class: "lead" }, line));
}

function emptyClass(page: ClassPage, of: SchoolClass): ClassView {
  const { words } = page;
  const people = placeText({ view: "people", of: of.name });
  const course = courseTitle(page, of.course);
  return {
    title: of.name,
    of,
    body: [
      heading(page, of, words.say("school.students-on", { course, students: 0, date: "" })),
      h("h2", {}, words.say("school.empty")),
      h("p", {}, words.say("school.empty-is")),
      h("div", { class: "presses" }, h("a", { class: "button go", href: people }, words.say("school.invite-first"))),
    ],
  };
}

/** Each student with where they are, in the order of names. */
function everybody(
  { words }: ClassPage,
  of: SchoolClass,
  { report, students }: { readonly report: Report; readonly students: readonly ListedStudent[] },
): HTMLElement {
  const reported = new Map(report.students.map((each) => [each.student, each.courses[0]]));
  const item = (student: ListedStudent): HTMLElement => {
    const course = reported.get(student.name);
    const places = course?.places ?? [];
    const last = course?.lastTake;
    return h(
      "li",
      {},
      h("h3", {}, h("a", { href: placeText({ view: "student", of: of.name, student: student.name }) }, student.name)),
      h(
        "div",
        {},
        places.length === 0 && h("p", {}, words.say("school.nothing-open")),
        places.map((place) =>
          h(
            "p",
            {},
            words.say("school.drill-place", { drill: place.title ?? place.drill, place: placeWords(place, words) }),
            place.stall !== undefined && h("strong", { class: "stuck" }, ` · ${words.say("school.is-stuck")}`),
            h(
              "span",
              { class: "line" },
              words.say("school.takes-there", {
                since: dateText(place.since, words),
                takes: tallyWords(place.takes, words),
              }),
            ),
          ),
        ),
      ),
      h(
        "p",
        { class: "small" },
        last === undefined
          ? words.say("school.no-take")
          : words.say("school.last-take", { date: dateText(last, words) }),
        course?.quiet === true && ` · ${words.say("school.is-quiet")}`,
        student.paused !== undefined && ` · ${words.say("school.is-away", { date: dateText(student.paused, words) })}`,
        student.erasedFrom !== undefined &&
          h("strong", { class: "line" }, words.say("school.is-erased", { date: dateText(student.erasedFrom, words) })),
      ),
    );
  };
  return h(
    "section",
    { "aria-labelledby": "everybody" },
    h("h2", { id: "everybody" }, words.say("school.everybody")),
    h("ul", { class: "register three" }, students.map(item)),
  );
}

function further(
  { words }: ClassPage,
  of: string,
  { after, next }: { readonly after: string | undefined; readonly next: string | undefined },
): HTMLElement | false {
  if (after === undefined && next === undefined) return false;
  return h(
    "div",
    { class: "presses" },
    next !== undefined &&
      h("a", { class: "button", href: placeText({ view: "class", of, after: next }) }, words.say("school.further")),
    after !== undefined &&
      h("a", { class: "button", href: placeText({ view: "class", of }) }, words.say("school.from-start")),
  );
}

/** What the words mean that a colleague would ask about. */
function explained({ words }: ClassPage): HTMLElement {
  const word = (of: "stuck" | "quiet" | "drift"): string => words.say("report.word", { word: of });
  return h(
    "details",
    {},
    h("summary", {}, words.say("school.words")),
    h("p", {}, words.say("report.means-stuck", { word: word("stuck") })),
    h("p", {}, words.say("report.means-quiet", { word: word("quiet"), days: QUIET_DAYS })),
    h("p", {}, words.say("report.means-drift", { word: word("drift") })),
    h("p", {}, words.say("report.about-worth")),
  );
}
