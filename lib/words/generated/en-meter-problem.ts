// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"meter-problem", Form> = {
  "meter-problem.write": (p, w) => `write ${w.text(p.text)}`,
  "meter-problem.write-for-instance": (p, w) => `write for instance ${w.text(p.example)}`,
  "meter-problem.meter-not-read": (p, w) => `a meter is two numbers such as 4/4 or 12/8, or groups such as 2+2+3/8; found ${w.text(p.found)}`,
  "meter-problem.meter-lower-not-power-of-two": (p, w) => `the lower number of a meter is a note value (1, 2, 4, 8, 16, 32 or 64); found ${w.text(p.found)}`,
  "meter-problem.meter-upper-out-of-range": (p, w) => `the upper number of a meter is from 1 to ${w.number(p.most)}; found ${w.text(p.found)}`,
  "meter-problem.meter-upper-out-of-range-remedy": (p, w) => `write a number from 1 to ${w.number(p.most)} before the stroke`,
  "meter-problem.swing-not-read": (p, w) => `a swing is a ratio and a note value, such as 2:1 1/8 note; found ${w.text(p.found)}`,
  "meter-problem.swing-ratio-out-of-range": (p, w) => `a swing ratio is between 1:${w.number(p.steepest)} and ${w.number(p.steepest)}:1, in whole numbers up to ${w.number(p.largest)}; found ${w.text(p.found)}`,
  "meter-problem.swing-ratio-out-of-range-remedy": () => `write for instance 2:1, or 3:2 for a lighter swing`,
  "meter-problem.beat-slower-than-synchronisation": (p, w) => `people keep time with beats up to ${w.number(p.slowest)} ms apart; here they are ${w.number(p.found)} ms apart`,
  "meter-problem.beat-slower-than-synchronisation-remedy": () => `count a shorter beat, or raise the tempo`,
  "meter-problem.subdivision-faster-than-synchronisation": (p, w) => `people keep time with notes from ${w.number(p.fastestEver)} to ${w.number(p.fastest)} ms apart at the fastest; here they are ${w.number(p.found)} ms apart`,
  "meter-problem.subdivision-faster-than-synchronisation-remedy": () => `lower the tempo, or write fewer notes`,
};
