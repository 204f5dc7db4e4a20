// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"edition-problem", Form> = {
  "edition-problem.drill-unknown": (p, w) => `there is no drill "${w.text(p.found)}" in ${w.text(p.course)}; its drills are ${w.text(p.drills)}`,
  "edition-problem.drill-unknown-remedy": (p, w) => `write ${w.text(p.drill)}`,
  "edition-problem.editions-of-two-courses": (p, w) => `editions of one course are compared; found ${w.text(p.before)} before and ${w.text(p.now)} now`,
  "edition-problem.editions-of-two-courses-remedy": (p, w) => `keep "curriculum: ${w.text(p.before)}": students' records are kept under it`,
  "edition-problem.edition-lowered": (p, w) => `edition ${w.text(p.now)} comes before ${w.text(p.before)}, the edition it is to follow`,
  "edition-problem.edition-lowered-remedy": () => `raise the number, unless this is meant to go back`,
  "edition-problem.edition-not-raised": (p, w) => `the course was changed and is still edition ${w.text(p.edition)}`,
  "edition-problem.edition-not-raised-remedy": () => `raise the number with each change that is published`,
  "edition-problem.credit-lost": (p, w) => `credit is lost in ${w.text(p.losses)}`,
  "edition-problem.credit-lost-remedy": () => `takes stay in the journals, and count again in an edition that has the rungs; a drill with a new name keeps them when it says formerly: and its old name`,
  "edition-problem.loss": (p, w) => `${w.text(p.drill)} (${w.number(p.lost)} of ${w.number(p.rungs)} ${ w.plural(p.rungs, { one: `rung)`, other: `rungs)` })}`,
  "edition-problem.more-losses": (p, w) => w.plural(p.drills, { one: `1 more drill`, other: `${w.number(p.drills)} more drills` }),
  "edition-problem.drills-joined": (p, w) => `${w.text(p.first)} and ${w.text(p.second)} both go on as ${w.text(p.now)}; who has begun several keeps only the first`,
  "edition-problem.drills-joined-several": (p, w) => `${w.text(p.others, true)} and ${w.text(p.last)} all go on as ${w.text(p.now)}; who has begun several keeps only the first`,
  "edition-problem.drills-joined-remedy": () => `let one drill state one of these names`,
};
