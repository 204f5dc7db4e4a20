import type { Curriculum } from "../../../curriculum/index.js";
import { findRung, scoreOf } from "../../../drill/index.js";
import type { Plan, PlanLine, PlayLine } from "../../../plan/index.js";
import type { Page, ShowView } from "../page.js";
import { routeText } from "../route.js";
import { brokenOff } from "../state/brokenOff.js";
import { chooseMinutes, session } from "../state/session.js";
import { placeOf, todaysPlan } from "../state/todaysPlan.js";
import { cautions } from "../view/cautions.js";
import { choices } from "../view/choice.js";
import { h } from "../view/element.js";
import { phraseStrip } from "../view/phraseStrip.js";
import { problemList } from "../view/problems.js";
import { rungLine } from "../view/rungWords.js";

/** Minutes to choose from: our choice. */
const MINUTES = ["10", "15", "20", "30"] as const;

/** What to practise today in the minutes there are, and why. */
export const showToday: ShowView = async (page) => {
  const { words } = page;
  const now = new Date();
  const title = words.say("page.today", { student: page.student!.name });
  const plan = await todaysPlan(page, now);
  if (!plan.ok) return { title, body: [h("h1", {}, title), problemList(plan.problems, words), againButton(page)] };
  const { course } = await page.course();
  const first = plan.value.lines.find((line) => line.kind !== "rest");
  const body = h(
    "div",
    { class: "two plan" },
    h(
      "div",
      { class: "head" },
      h("p", { class: "kicker" }, dateText(now, words.language)),
      h("h1", {}, title),
      brokenOff() && h("p", { role: "status" }, words.say("page.broken-off")),
    ),
    h(
      "form",
      { class: "side first", "aria-label": words.say("page.minutes") },
      choices("minutes", words.say("page.minutes-asked"), {
        inRow: true,
        of: MINUTES.map((value) => ({ value, label: value })),
        chosen: MINUTES.find((value) => value === `${session().minutes}`),
        change: (value) => {
          chooseMinutes(Number(value));
          page.go({ view: "today" });
        },
      }),
      first !== undefined && startLink(first, page),
    ),
    programme(plan.value, course, page),
    h("div", { class: "side last" }, cautions(words)),
  );
  return { title, body: [body] };
};

function startLink(line: PlayLine, { words }: Page): HTMLElement {
  const href = routeText(placeOf(line));
  return h(
    "div",
    { class: "presses" },
    h("a", { class: "button go", href }, words.say("page.start-with", { drill: line.title })),
  );
}

function programme(plan: Plan, course: Curriculum, page: Page): HTMLElement {
  const { words } = page;
  const used = Math.ceil(plan.seconds / 60);
  return h(
    "section",
    { class: "body tall", "aria-labelledby": "plan" },
    h("h2", { id: "plan" }, words.say("page.minutes-used", { used, minutes: plan.minutes })),
    h(
      "ol",
      { class: "programme", "aria-labelledby": "plan" },
      plan.lines.map((line) => programmeLine(line, course, page)),
    ),
    plan.advice.map((said, i) => h("p", { class: "small" }, words.word(plan.messages[i], said))),
  );
}

function programmeLine(line: PlanLine, course: Curriculum, page: Page): HTMLElement {
  const { words } = page;
  const minutes = Math.floor(line.from / 60);
  const at = h(
    "span",
    { class: "at" },
    h("span", { class: "unseen" }, words.say("page.at")),
    `${minutes}:${`${Math.floor(line.from % 60)}`.padStart(2, "0")}`,
  );
  const because = h("p", { class: "small why" }, words.word(line.message, line.because));
  if (line.kind === "rest") {
    const rest = words.say("page.rest", { minutes: Math.round(line.seconds / 60) });
    return h("li", { class: "rest" }, at, h("div", {}, h("h3", {}, rest), because));
  }
  const drill = course.drills.find(({ name }) => name === line.drill);
  const found = drill && findRung(drill, line.rung);
  const rung = found?.ok === true ? found.value : undefined;
  const href = routeText(placeOf(line));
  return h(
    "li",
    {},
    at,
    h(
      "div",
      {},
      h("h3", {}, h("a", { href }, line.title)),
      rung !== undefined && h("p", {}, rungLine(rung, words)),
      h("p", {}, words.say("page.takes-of", { takes: line.takes, kind: line.kind.replace(" ", "-") as "warm-up" })),
      because,
      line.follows.map((said, i) => h("p", { class: "small" }, words.word(line.followMessages[i], said))),
    ),
    rung !== undefined && h("div", { class: "pic" }, phraseStrip(scoreOf(rung, line.mix))),
  );
}

function againButton(page: Page): HTMLElement {
  return h(
    "div",
    { class: "presses" },
    h("a", { class: "button", href: routeText({ view: "choose" }) }, page.words.say("page.place", { place: "choose" })),
  );
}

/** The day in the student's language, as the browser words it. */
function dateText(now: Date, language: string): string {
  return now.toLocaleDateString(language, { weekday: "long", day: "numeric", month: "long" });
}
