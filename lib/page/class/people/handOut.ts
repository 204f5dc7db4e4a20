import { encode } from "uqr";
import { h, shape } from "../../app/view/element.js";
import type { ListedInvitation } from "../../school/model.js";
import { dateText } from "../date.js";
import type { ClassPage } from "../page.js";

/** An invitation as it is made: the only time its link is known. */
export interface MadeLink extends ListedInvitation {
  /** Address below that of the school. */
  readonly link: string;
}

/** Addresses of a machine to itself, which nobody else can open. */
const LOOPBACK = /^(?:localhost|127\.\d+\.\d+\.\d+|\[::1\])$/;

/** A link to hand out: to copy, and as a code that a camera reads. */
export function handOut(page: ClassPage, { link, name = "", until }: MadeLink): HTMLElement {
  const { words } = page;
  const address = new URL(link, location.href).href;
  const field = h("input", { type: "text", id: "made", value: address, readonly: true });
  const copy = async (): Promise<void> => {
    field.select();
    // Where the browser lets no page write to the clipboard, the link stands marked, to be copied by hand.
    await navigator.clipboard?.writeText(address).then(
      () => page.announce(words.say("school.link-copied")),
      () => undefined,
    );
  };
  return h(
    "section",
    { class: "made", "aria-labelledby": "made-head" },
    h("h3", { id: "made-head" }, words.say("school.link-made", { for: name === "" ? "anybody" : "somebody", name })),
    h("p", {}, words.say("school.link-once", { date: dateText(until, words) })),
    h("label", { class: "label", for: "made" }, words.say("school.link")),
    field,
    h(
      "div",
      { class: "presses" },
      h("button", { type: "button", click: () => void copy() }, words.say("school.copy-link")),
    ),
    code(address, words.say("school.link-code")),
    LOOPBACK.test(location.hostname) && h("p", { class: "small" }, words.say("school.link-loopback")),
  );
}

/** Modules of white around a code (ISO/IEC 18004, quiet zone). */
const QUIET = 4;

/** A text as a QR code (ISO/IEC 18004) of level M. It stays black on white on dark paper too, as cameras want it. */
function code(text: string, says: string): SVGSVGElement {
  const { data } = encode(text, { ecc: "M", border: QUIET });
  const dark = data.flatMap((row, y) => row.flatMap((isDark, x) => (isDark ? [`M${x} ${y}h1v1h-1z`] : [])));
  const side = data.length;
  return shape(
    "svg",
    { class: "code", viewBox: `0 0 ${side} ${side}`, role: "img", "aria-label": says, "shape-rendering": "crispEdges" },
    shape("rect", { width: side, height: side, class: "light" }),
    shape("path", { d: dark.join(""), class: "dark" }),
  );
}
