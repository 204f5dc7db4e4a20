import { languageNotes } from "../../words/index.js";
import { keptLine } from "./keptLine.js";
import type { Page, View } from "./page.js";
import { type Route, routeText, type ViewName } from "./route.js";
import { schoolLine } from "./school/schoolLine.js";
import { h } from "./view/element.js";
import { type Framed, placeLink, sign } from "./view/frame.js";

/** The four places in the bar at the top; the teacher's is at the bottom. */
const PLACES: readonly ViewName[] = ["today", "course", "history", "choose"];

/** A view with what stands around it. */
export function inShell(page: Page, route: Route, { title, body }: View): Framed {
  return { title, body, head: head(page, route), foot: foot(page) };
}

function head({ words, listed, student }: Page, route: Route): Node[] {
  const title = h("p", {}, sign(), h("span", {}, listed?.title ?? words.say("page.name")));
  if (student === undefined) return [title];
  const links = PLACES.map((view) =>
    placeLink(words.say("page.place", { place: view }), routeText({ view }), view === shownUnder(route.view)),
  );
  return [title, h("nav", { "aria-label": words.say("page.places") }, links)];
}

function shownUnder(view: ViewName): ViewName {
  return view === "take" || view === "drill" ? "today" : view;
}

/** Says where what is here is kept: at the school, and on this device. */
export async function showKept(
  page: Page,
  lines: readonly Element[] = Array.from(document.querySelectorAll("#stays, #kept")),
): Promise<void> {
  const texts = await Promise.all([schoolLine(page), keptLine(page)]);
  for (const [i, line] of lines.entries()) line.textContent = texts[i]!;
}

function foot(page: Page): Node[] {
  const { words } = page;
  const kept = [h("p", { class: "small", id: "stays" }), h("p", { class: "small", id: "kept" })];
  void showKept(page, kept);
  const toClasses = h("p", { class: "small" });
  void page.school?.then(({ member }) => {
    if (member?.role === "teacher") toClasses.append(h("a", { href: "class/" }, words.say("page.school-classes")));
  });
  return [
    ...languageNotes(words).map((note) => h("p", { class: "small" }, note)),
    ...kept,
    toClasses,
    h("p", { class: "small" }, h("a", { href: routeText({ view: "teacher" }) }, words.say("page.for-teachers"))),
  ];
}
