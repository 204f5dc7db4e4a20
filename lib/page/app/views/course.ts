import type { Curriculum } from "../../../curriculum/index.js";
import { type Drill, type Rung, rungCalled, rungs, scoreOf, settingsText } from "../../../drill/index.js";
import { openStudent } from "../../../practice/index.js";
import { drillStanding, isCompleted } from "../../../progress/index.js";
import { ladderChart } from "../../../render/index.js";
import type { DrillStanding, Standing } from "../../../schema/index.js";
import type { Page, ShowView } from "../page.js";
import { routeText } from "../route.js";
import { chart } from "../view/drawing.js";
import { h } from "../view/element.js";
import { phraseStrip } from "../view/phraseStrip.js";
import { drillTitle, settingsLine } from "../view/rungWords.js";

/** Most rungs listed of a drill, those about the student's own: our choice. */
const MOST_LISTED = 40;

/** The drills of the course, their rungs, what is open and why. */
export const showCourse: ShowView = async (page) => {
  const { words, student } = page;
  const { course } = await page.course();
  const opened = student === undefined ? undefined : await openStudent(await page.store(), student.name, { course });
  const standing = opened?.ok === true ? opened.value.standing : undefined;
  const title = words.say("page.course-title");
  return {
    title,
    body: [
      h(
        "div",
        { class: "head" },
        h("h1", {}, title),
        h("p", { class: "lead" }, words.say("page.course-lead", { drills: course.drills.length })),
        course.about !== undefined &&
          h("details", {}, h("summary", {}, words.say("page.about-course")), paragraphs(course.about)),
      ),
      h(
        "div",
        { class: "pair" },
        course.drills.map((drill, i) => drillSection(drill, { course, standing, number: i + 1, page })),
      ),
    ],
  };
};

interface Setting {
  readonly course: Curriculum;
  readonly standing: Standing | undefined;
  readonly number: number;
  readonly page: Page;
}

function drillSection(drill: Drill, { course, standing, number, page }: Setting): HTMLElement {
  const { words } = page;
  const held = standing === undefined ? undefined : drillStanding(standing, drill.name);
  const own = rungCalled(drill, held?.rung) ?? rungs(drill).at(0);
  const id = `drill-${number}`;
  const isHere = held?.state === "open";
  return h(
    "section",
    { class: "drill", "aria-labelledby": id },
    h("h2", { id }, `${number}. ${drillTitle(drill)}`),
    phraseStrip(scoreOf(own)),
    h("p", { class: isHere ? "state here" : "state" }, stateText(drill, { course, standing, held, own, page })),
    drill.about !== undefined && paragraphs(drill.about),
    h(
      "div",
      { class: "presses" },
      h("a", { class: "button", href: drillAddress(own) }, words.say(isHere ? "page.play-rung" : "page.look-at-it")),
    ),
    h(
      "details",
      {},
      h("summary", {}, words.say("page.all-rungs", { count: rungs(drill).count, drill: drillTitle(drill) })),
      h("figure", {}, chart(ladderChart(drill, { width: 328, words, ...(isHere ? { at: own.index } : {}) }))),
      rungList(drill, { own, isHere, held, page }),
    ),
  );
}

function drillAddress({ drill, settings }: Rung): string {
  return routeText({ view: "drill", drill: drill.name, rung: settingsText(settings) });
}

/** What is open of a drill, and why. */
function stateText(
  drill: Drill,
  {
    course,
    standing,
    held,
    own,
    page: { words },
  }: Omit<Setting, "number"> & { held: DrillStanding | undefined; own: Rung },
): string {
  const count = rungs(drill).count;
  if (standing === undefined) return words.say("page.drill-unplayed", { count });
  if (held?.state === "open") return words.say("page.you-are-on", { number: own.index + 1, count });
  if (isCompleted(standing, drill.name)) return words.say("page.drill-complete");
  const missing = drill.needs.filter((name) => !isCompleted(standing, name));
  const titles = missing.map((name) => course.drills.find((each) => each.name === name)?.title ?? name);
  return titles.length === 0
    ? words.say("page.drill-opens-by-teacher")
    : words.say("page.drill-opens", { drills: titles });
}

function rungList(
  drill: Drill,
  { own, isHere, held, page: { words } }: { own: Rung; isHere: boolean; held: DrillStanding | undefined; page: Page },
): HTMLElement {
  const all = rungs(drill);
  const from = Math.max(0, Math.min(own.index - MOST_LISTED / 2, all.count - MOST_LISTED));
  const items = Array.from({ length: Math.min(MOST_LISTED, all.count) }, (_, i) => {
    const rung = all.at(from + i);
    const known = held?.rungs.find((each) => each.rung === settingsText(rung.settings));
    const state =
      isHere && rung.index === own.index
        ? "here"
        : known?.credit !== undefined
          ? "passed"
          : known !== undefined && known.takes.length > 0
            ? "played"
            : "ahead";
    const text = `${rung.index + 1}. ${settingsLine(rung, words)}`;
    return h(
      "li",
      {},
      h("a", { href: drillAddress(rung) }, h("span", {}, text), h("span", {}, words.say("page.rung-state", { state }))),
    );
  });
  const left = all.count - items.length;
  return h(
    "div",
    {},
    h("ol", { class: "rungs", start: from + 1 }, items),
    left > 0 && h("p", { class: "small" }, words.say("page.more-rungs", { count: left })),
  );
}

/** A text of the course's author, in its paragraphs. */
export function paragraphs(text: string): Node[] {
  return text
    .split(/\n\s*\n|\n/)
    .filter((each) => each.trim() !== "")
    .map((each) => h("p", {}, each));
}
