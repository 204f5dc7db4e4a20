// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"time-problem", Form> = {
  "time-problem.write": (p, w) => `write ${w.text(p.text)}`,
  "time-problem.span-not-read-remedy": () => `write for instance 1/2 bar`,
  "time-problem.span-not-read": (p, w) => `a length is a number and a unit, such as 1/2 bar, 3 beats or 1/8 note; found ${w.text(p.found)}`,
  "time-problem.span-unit-unknown": (p, w) => `a length is counted in bars, beats or a note value (1/8 note); found ${w.text(p.found)}`,
  "time-problem.span-not-positive": (p, w) => `a length must be above 0; found ${w.text(p.found)}`,
  "time-problem.span-too-long": (p, w) => `a length is at most ${w.number(p.most)}; found ${w.text(p.found)}`,
  "time-problem.span-too-long-remedy": () => `write a shorter length, such as 1 bar`,
  "time-problem.tempo-not-read": (p, w) => `a tempo is beats per minute such as 96, or 60 of 3/8 for dotted quarters; found ${w.text(p.found)}`,
  "time-problem.tempo-out-of-range": (p, w) => `a tempo is from ${w.number(p.least)} to ${w.number(p.most)} beats per minute; found ${w.text(p.found)}`,
  "time-problem.beat-unit-not-read": (p, w) => `a beat unit is a note value (1/4) or a dotted one (3/8); found ${w.text(p.found)}`,
  "time-problem.beat-unit-not-read-remedy": () => `write 1/4, or 3/8 for a dotted quarter`,
};
