import type { Words } from "../../../words/index.js";
import { fill, h, shape } from "./element.js";
import { hatching } from "./hatching.js";

/** What stands around every view of a page. */
export interface Frame {
  show(view: Framed): void;
  announce(text: string): void;
}

/** A view with what stands above and below it. */
export interface Framed {
  /** Title of the document. */
  readonly title: string;
  readonly body: readonly Node[];
  readonly head: readonly Node[];
  readonly foot: readonly Node[];
}

/** Puts the frame of a page into an element. */
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
    show: ({ title, body, head, foot }) => {
      document.title = title;
      fill(header, head);
      fill(main, body);
      fill(footer, foot);
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

/** What a page is about, in its four signs: the band, silence, landing. */
export function sign(): Node {
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

/** A link to a place of the page, set apart when one is there. */
export function placeLink(text: string, href: string, isHere: boolean): HTMLElement {
  return h("a", { href, "aria-current": isHere && "page" }, text);
}

function skipTo(main: HTMLElement): (event: Event) => void {
  return (event) => {
    event.preventDefault();
    main.focus();
  };
}
