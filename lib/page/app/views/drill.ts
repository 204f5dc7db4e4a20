import { findRung, type Rung, scoreOf, takeSeconds, usualMix } from "../../../drill/index.js";
import { chooseDrill, openStudent, place } from "../../../practice/index.js";
import { stripChart } from "../../../render/index.js";
import type { Page, ShowView } from "../page.js";
import { play } from "../playing/play.js";
import { standFor } from "../playing/standFor.js";
import { type Route, routeText } from "../route.js";
import { brokenOff } from "../state/brokenOff.js";
import { cautions } from "../view/cautions.js";
import { choices } from "../view/choice.js";
import { cleanWhen } from "../view/cleanWhen.js";
import { chart, chartWidth } from "../view/drawing.js";
import { fill, h } from "../view/element.js";
import { onKey } from "../view/keys.js";
import { counts, mixHint } from "../view/mixWords.js";
import { problemList } from "../view/problems.js";
import { drillTitle, rungLine } from "../view/rungWords.js";
import { paragraphs } from "./course.js";

/** One rung of a drill: the riff, what falls silent, the versions to hear and to play. */
export const showDrill: ShowView = async (page, route) => {
  const { words } = page;
  const found = await rungAsked(page, route);
  if (typeof found === "string") {
    const title = words.say("page.no-such-drill");
    const back = h(
      "a",
      { class: "button", href: routeText({ view: "course" }) },
      words.say("page.place", { place: "course" }),
    );
    return { title, body: [h("h1", {}, title), h("p", {}, found), h("div", { class: "presses" }, back)] };
  }
  const rung = found;
  const { drill } = rung;
  const usual = usualMix(drill, rung.settings).name;
  const own = [usual, ...drill.mixes.map(({ name }) => name)].find((name) => counts(rung, name));
  let mix = drill.mixes.find(({ name }) => name === route.asked.mix)?.name ?? own ?? usual;
  let phrase: number | undefined;
  const stand = await standFor(page, rung, mix);
  const hint = h("p", { class: "hint", role: "status" }, mixHint(rung, mix, words));
  const start = h(
    "button",
    { type: "submit", class: "go", id: "start" },
    startText(),
    h("kbd", { class: "keys" }, words.say("page.space")),
  );
  const trouble = h("div", { role: "alert" });
  const body = h("div", { class: "drill-view" });

  function startText(): string {
    return words.say(counts(rung, mix) && phrase === undefined ? "page.start-take" : "page.start-listening");
  }
  const begin = async (): Promise<void> => {
    fill(trouble);
    const refused = await play(page, {
      rung,
      mix,
      phrase,
      placing: route.asked.place !== undefined,
      body,
      back: content,
    });
    const byInput = refused.every(({ code }) => code !== "RECORDING_NOT_HERE") && instead(page);
    if (refused.length > 0) fill(trouble, problemList(refused, words), byInput);
  };
  const form = h(
    "form",
    { class: "body", "aria-label": words.say("page.version") },
    choices("mix", words.say("page.version-asked"), {
      inRow: true,
      of: drill.mixes.map(({ name }) => ({ value: name, label: name })),
      chosen: mix,
      change: (name) => {
        mix = name;
        fill(hint, mixHint(rung, mix, words));
        start.firstChild!.textContent = startText();
      },
    }),
    hint,
    h("div", { class: "presses" }, start),
    trouble,
    page.student !== undefined &&
      h("p", { class: "small" }, words.say("page.plays-by", { input: page.student.input, hears: page.student.hears })),
    page.student === undefined &&
      h(
        "p",
        {},
        words.say("page.look-only"),
        " ",
        h("a", { href: routeText({ view: "choose" }) }, words.say("page.begin-here")),
      ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void begin();
  });
  const content: readonly Node[] = [
    h(
      "div",
      { class: "head" },
      h("p", { class: "kicker" }, rungLine(rung, words)),
      h("h1", {}, drillTitle(drill)),
      route.asked.place !== undefined && h("p", {}, words.say("page.placing")),
      brokenOff() && h("p", { role: "status" }, words.say("page.broken-off")),
      drill.about !== undefined && paragraphs(drill.about),
    ),
    h("figure", { class: "stand" }, stand.element),
    h(
      "div",
      { class: "two level" },
      form,
      h(
        "div",
        { class: "side" },
        aboutTake(page, rung, (chosen) => {
          phrase = chosen;
          start.firstChild!.textContent = startText();
        }),
        cautions(words),
      ),
      h(
        "section",
        { class: "body", "aria-labelledby": "clean" },
        h("h2", { id: "clean" }, words.say("sheet.clean-when")),
        cleanWhen(rung, words),
        h(
          "details",
          {},
          h("summary", {}, words.say("page.whole-strip")),
          h("figure", {}, chart(stripChart(scoreOf(rung, mix), { width: chartWidth(), words }))),
        ),
      ),
    ),
  ];
  fill(body, content);
  const quiet = onKey((key) => {
    if (key !== "start") return false;
    start.click();
    return true;
  });
  return { title: drillTitle(drill), body: [body], leave: quiet };
};

/** How long the take is, how much of it to play, and what else can be done with it. */
function aboutTake({ words }: Page, rung: Rung, change: (phrase: number | undefined) => void): HTMLElement {
  const { drill } = rung;
  const select = h(
    "select",
    { id: "much" },
    h("option", { value: "" }, words.say("page.whole-take")),
    Array.from({ length: drill.phrases }, (_, i) =>
      h("option", { value: i + 1 }, words.say("page.phrase-repeated", { number: i + 1 })),
    ),
  );
  select.addEventListener("change", () => change(select.value === "" ? undefined : Number(select.value)));
  return h(
    "section",
    { "aria-labelledby": "take" },
    h("h2", { id: "take" }, words.say("page.the-take")),
    h("p", {}, words.say("page.take-is", { phrases: drill.phrases, seconds: Math.round(takeSeconds(rung)) })),
    h("div", { class: "field" }, h("label", { class: "label", for: "much" }, words.say("page.how-much")), select),
    h(
      "div",
      { class: "presses" },
      h("a", { class: "button", href: routeText({ view: "sound" }) }, words.say("page.check-sound")),
      h("button", { type: "button", click: () => print() }, words.say("page.print")),
    ),
  );
}

/** What else can be done when the chosen input is not there. */
function instead({ words }: Page): HTMLElement {
  return h("p", {}, h("a", { href: routeText({ view: "choose" }) }, words.say("page.other-input")));
}

/** The rung that an address asks for, or why there is none. */
async function rungAsked(
  page: Page,
  { drill: name, rung: asked, asked: { place: places } }: Route,
): Promise<Rung | string> {
  const { course } = await page.course();
  const drill = course.drills.find((each) => each.name === name);
  if (drill === undefined) return page.words.say("page.drill-unknown", { drill: name ?? "" });
  const { student } = page;
  if (places !== undefined && student !== undefined) {
    const placed = await place(await page.store(), student.name, {
      course,
      drill: drill.name,
      at: new Date().toISOString(),
    });
    if (placed.ok) return placed.value.placing.rung;
  }
  if (asked !== undefined) {
    const found = findRung(drill, asked);
    return found.ok ? found.value : page.words.say("page.rung-unknown", { rung: asked });
  }
  const opened = student === undefined ? undefined : await openStudent(await page.store(), student.name, { course });
  if (opened?.ok === false && opened.problems[0]?.code === "EDITION_BEHIND") return opened.problems[0].message;
  const chosen = opened?.ok === true ? chooseDrill(course, opened.value.standing, drill.name) : findRung(drill, "1");
  if (!chosen.ok) return chosen.problems[0]!.message;
  return "rung" in chosen.value ? chosen.value.rung : chosen.value;
}
