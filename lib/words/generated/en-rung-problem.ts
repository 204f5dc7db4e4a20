// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"rung-problem", Form> = {
  "rung-problem.write": (p, w) => `write ${w.text(p.text)}`,
  "rung-problem.setting-unknown-in-drill": (p, w) => `drill ${w.text(p.drill)} has the settings ${w.text(p.parameters)}; found ${w.text(p.found)}`,
  "rung-problem.setting-unknown-in-drill-remedy": (p, w) => `leave ${w.text(p.parameter)} out`,
  "rung-problem.mix-unknown": (p, w) => `drill ${w.text(p.drill)} has the mixes ${w.text(p.mixes)}; found ${w.text(p.found)}`,
  "rung-problem.rung-not-found": (p, w) => `drill ${w.text(p.drill)} has no rung with ${ p.asked === "" ? `no setting: ` : `${w.text(p.asked)}: `}each value is on its ladder, but never together, because of where the ladders restart`,
  "rung-problem.rung-is-preparation": (p, w) => `${w.text(p.asked)} is a preparation for drill ${w.text(p.drill)}, below its first rung; here a rung is needed`,
  "rung-problem.rung-not-found-fixed": (p, w) => `${w.text(p.parameter)} is always ${w.text(p.fixed)} in drill ${w.text(p.drill)}; found ${w.text(p.found)}`,
  "rung-problem.rung-not-found-fixed-remedy": (p, w) => `write ${w.text(p.setting)}, or leave it out`,
  "rung-problem.rung-not-found-on-ladder": (p, w) => `the ladder of ${w.text(p.parameter)} has ${w.text(p.values)}; found ${w.text(p.found)}`,
  "rung-problem.rung-ambiguous": (p, w) => `one rung is wanted, but ${ p.asked === "" ? `no setting ` : `${w.text(p.asked)} `}leaves open ${w.text(p.choices)}`,
  "rung-problem.rung-ambiguous-remedy": (p, w) => `say also ${w.text(p.settings)}`,
  "rung-problem.rung-number-out-of-range": (p, w) => `drill ${w.text(p.drill)} has ${ w.plural(p.rungs, { one: `one rung, number `, other: `${w.number(p.rungs)} rungs, counted from ` })}1; found ${w.text(p.found)}`,
  "rung-problem.rung-number-out-of-range-remedy": (p, w) => `write a number from 1 to ${w.text(p.last)}, or settings such as ${w.text(p.settings)}`,
  "rung-problem.values-of-many": (p, w) => `${w.text(p.first)}, ... ${w.text(p.last)}, ${w.number(p.count)} values`,
  "rung-problem.choice": (p, w) => `${w.text(p.parameter)} (${w.text(p.values)})`,
  "rung-problem.choice-of-many": (p, w) => `${w.text(p.parameter)} (${w.text(p.first)}, ... ${w.text(p.last)}, ${w.number(p.count)} values)`,
};
