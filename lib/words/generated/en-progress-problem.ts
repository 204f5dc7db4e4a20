// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"progress-problem", Form> = {
  "progress-problem.curriculum-other": (p, w) => `the standing is in ${w.text(p.standing)}, the course given is ${w.text(p.given)}`,
  "progress-problem.edition-behind": (p, w) => `${w.text(p.student)} is in edition ${w.text(p.edition)} of the course already, later than ${w.text(p.found)}, which is given here`,
  "progress-problem.edition-behind-remedy": (p, w) => `open edition ${w.text(p.edition)} of the course and send the take again`,
  "progress-problem.finding-incomplete": (p) => `a finding must name its take, drill and rung to be counted, and the ${ p.missing === "take" ? `take ` : p.missing === "drill" ? `drill ` : `rung `}is missing`,
  "progress-problem.take-name-long": (p, w) => `the name of a take must have at most ${w.number(p.most)} characters, found ${w.number(p.found)}`,
  "progress-problem.take-name-long-remedy": () => `give the take a shorter name`,
  "progress-problem.progress-drill-unknown": (p, w) => `the drills of ${w.text(p.course)} are ${w.text(p.drills)}; found ${w.text(p.found)}`,
  "progress-problem.progress-drill-unknown-remedy": (p, w) => `write ${w.text(p.drill)}`,
};
