// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"trend", Form> = {
  "trend.moved": (p, w) => p.direction === "towards" ? `Over ${w.number(p.takes)} takes with ${w.number(p.seconds, 0, 2)} s of silence your drift went from ${w.text(p.first)} to ${w.text(p.last)}: closer to the tempo (each take ${w.text(p.low)} to ${w.text(p.high)}, with 90 % certainty).` : p.direction === "away" ? `Over ${w.number(p.takes)} takes with ${w.number(p.seconds, 0, 2)} s of silence your drift went from ${w.text(p.first)} to ${w.text(p.last)}: further from the tempo (each take ${w.text(p.low)} to ${w.text(p.high)}, with 90 % certainty).` : `Over ${w.number(p.takes)} takes with ${w.number(p.seconds, 0, 2)} s of silence your drift did not change by an amount that can be told (each take ${w.text(p.low)} to ${w.text(p.high)}, with 90 % certainty).`,
  "trend.drift": (p, w) => p.way === "fast" ? `${w.number(p.percent, 1)} % fast` : `${w.number(p.percent, 1)} % slow`,
  "trend.drift-change": (p, w) => p.way === "faster" ? `${w.number(p.percent, 2)} % faster` : `${w.number(p.percent, 2)} % slower`,
};
