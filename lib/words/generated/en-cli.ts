// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"cli", Form> = {
  "cli.at": (p, w) => `${w.text(p.sentence)} at ${w.text(p.pointer)}`,
  "cli.advice": (p, w) => `advice: ${w.text(p.sentence)}`,
  "cli.problems": (p, w) => Math.round(p.count) === 0 ? `no problems` : w.plural(p.count, { one: `${w.number(p.count)} problem`, other: `${w.number(p.count)} problems` }),
  "cli.pieces-of-advice": (p, w) => w.plural(p.count, { one: `${w.number(p.count)} piece of advice`, other: `${w.number(p.count)} pieces of advice` }),
  "cli.drills": (p, w) => Math.round(p.count) === 0 ? `no drills` : w.plural(p.count, { one: `${w.number(p.count)} drill`, other: `${w.number(p.count)} drills` }),
  "cli.found": (p, w) => `${w.text(p.problems)}, ${w.text(p.advice)}`,
  "cli.checked": (p, w) => `${w.text(p.file)}: ${w.text(p.found)}`,
  "cli.checked-course": (p, w) => `${w.text(p.file)}: ${w.text(p.found)} (${w.text(p.course)} ${w.text(p.edition)}, ${w.text(p.drills)})`,
  "cli.rewrite": (p, w) => p.outcome === "kept" ? `${w.text(p.file)}: left as it is` : p.outcome === "rewritten" ? `${w.text(p.file)}: rewritten` : `${w.text(p.file)}: nothing to rewrite`,
  "cli.hidden-slips": (p, w) => `${w.text(p.drill)}: takes without pitch do not tell a slip from a note left out with ${w.text(p.where)}`,
  "cli.hidden-slips-in": (p, w) => `${w.text(p.settings)} (${w.text(p.beats)} beat)`,
  "cli.slips-remedy": () => `Record with pitch (MIDI or audio), or write a rest or a longer note into the silence and another into the bar after it, so that the rhythm does not repeat itself after the slip.`,
};
