import { cautionsIn, type Words } from "../../../words/index.js";
import { h } from "./element.js";

/** The cautions about loudness and strain, under a heading of this level. */
export function cautions(words: Words, level: "h2" | "h3" = "h2"): HTMLElement {
  return h(
    "aside",
    { class: "caution", "aria-labelledby": "care" },
    h(level, { id: "care" }, words.say("page.care")),
    cautionsIn(words).map((text) => h("p", {}, text)),
  );
}
