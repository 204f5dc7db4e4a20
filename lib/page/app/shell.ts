import { languageNotes, type Words } from "../../words/index.js";
import { keptLine } from "./keptLine.js";
import type { Page, View } from "./page.js";
import { type Route, routeText, type ViewName } from "./route.js";
import { type Child, fill, h, shape } from "./view/element.js";
import { hatching } from "./view/hatching.js";

/** What stands around every view. */
export interface Frame {
  show(page: Page, route: Route, view: View): void;
  announce(text: string): void;
}

/** The four places in the bar at the top; the teacher's is at the bottom. */
const PLACES: readonly ViewName[] = ["today", "course", "history", "choose"];

/** Puts the frame of the page into an element. */
export function frameOf(root: HTMLElement, words: Words): Frame {
  const status = h("p", { class: "unseen", role: "status" });
  const header = h("header", { class: "top" });
  const main = h("main", { id: "main", tabindex: -1 });
  const footer = h("footer");
  const skip = h("a", { class: "skip", href: "#main", click: skipTo(main) }, words.say("page.skip"));
  // What a page in one file holds stays where it is.
  root.querySelector("noscript")?.remove();
  root.prepend(hatching(), skip, header, main, status, footer);
  let isFirst = true;
  return {
    announce: (text) => {
      status.textContent = text;
    },
    show: (page, route, view) => {
      document.title = view.title;
      fill(header, head(page, route));
      fill(main, view.body);
      fill(footer, foot(page));
      status.textContent = "";
      scrollTo(0, 0);
      // The first view leaves the focus where a browser puts it; of all others the heading says where one is.
      const heading = main.querySelector<HTMLElement>("h1");
      heading?.setAttribute("tabindex", "-1");
      if (!isFirst) (heading ?? main).focus();
      isFirst = false;
    },
  };
}

function head({ words, listed, student }: Page, route: Route): Node[] {
  const title = h("p", {}, sign(), h("span", {}, listed?.title ?? words.say("page.name")));
  if (student === undefined) return [title];
  const links = PLACES.map((view) =>
    h(
      "a",
      { href: routeText({ view }), "aria-current": view === shownUnder(route.view) && "page" },
      words.say("page.place", { place: view }),
    ),
  );
  return [title, h("nav", { "aria-label": words.say("page.places") }, links)];
}

function shownUnder(view: ViewName): ViewName {
  return view === "take" || view === "drill" ? "today" : view;
}

/** What the page is about, in its four signs: the band, silence, landing. */
function sign(): Node {
  return shape(
    "svg",
    { viewBox: "0 0 42 20", "aria-hidden": "true", focusable: "false" },
    shape("rect", { x: 0, y: 9, width: 15, height: 7, class: "f-sound" }),
    shape("path", { d: "M18 16l5-7M23 16l5-7M28 16l4-5.6", class: "s-hatch", "stroke-width": 1.6 }),
    shape("rect", { x: 16.5, y: 9.5, width: 16, height: 6, class: "s-hatch", "stroke-width": 1 }),
    shape("path", { d: "M33.5 19V1", class: "s-ink", "stroke-width": 1.8 }),
    shape("path", { d: "M33.5 1l9 4.5l-9 4.5z", class: "f-ink" }),
  );
}

function foot(page: Page): Child[] {
  const { words } = page;
  const kept = h("p", { class: "small", id: "kept" });
  void keptLine(page).then((text) => {
    kept.textContent = text;
  });
  return [
    h("p", { class: "small" }, words.say("page.stays-here")),
    languageNotes(words).map((note) => h("p", { class: "small" }, note)),
    kept,
    h("p", { class: "small" }, h("a", { href: routeText({ view: "teacher" }) }, words.say("page.for-teachers"))),
  ];
}

function skipTo(main: HTMLElement): (event: Event) => void {
  return (event) => {
    event.preventDefault();
    main.focus();
  };
}
