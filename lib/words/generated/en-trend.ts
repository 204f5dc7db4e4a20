// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"trend", Form> = {
  "trend.moved": (p, w) => `Over ${w.number(p.takes)} takes with ${w.number(p.seconds, 0, 2)} s of silence your drift ${ p.direction === "towards" ? `went from ${w.text(p.first)} to ${w.text(p.last)}: closer to the tempo ` : p.direction === "away" ? `went from ${w.text(p.first)} to ${w.text(p.last)}: further from the tempo ` : `did not change by an amount that can be told `}(each take ${w.text(p.low)} to ${w.text(p.high)}, with 90 % certainty).`,
  "trend.drift": (p, w) => `${w.number(p.percent, 1)} % ${ p.way === "fast" ? `fast` : `slow`}`,
  "trend.drift-change": (p, w) => `${w.number(p.percent, 2)} % ${ p.way === "faster" ? `faster` : `slower`}`,
};
