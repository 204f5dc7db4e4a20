// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"progress", Form> = {
  "progress.counted-before": (p, w) => `Take ${w.text(p.take)} was counted before.`,
  "progress.clean": () => `This take was clean.`,
  "progress.beyond": () => `This take was outside the limits.`,
  "progress.unclear": () => `The take is unclear, so it changes nothing.`,
  "progress.landings-left-out": (p, w) => `Over these takes you left out ${w.number(p.out)} of ${w.number(p.asked)} landings, and ${w.number(p.missed)} of ${w.number(p.notes)} other notes, so that it is unclear whether you land with the band: play the note on which it returns, even softly.`,
  "progress.needs-out-of-last": (p, w) => `You need ${ w.plural(p.clean, { one: `1 clean take `, other: `${w.number(p.clean)} clean takes ` })}out of your last ${w.number(p.of)}; you have ${ Math.round(p.have) === 0 ? `none yet.` : w.plural(p.have, { one: `1.`, other: `${w.number(p.have)}.` })}`,
  "progress.needs-in-a-row": (p, w) => `You need ${ w.plural(p.clean, { one: `1 clean take; you have ${ Math.round(p.have) === 0 ? `none yet.` : w.plural(p.have, { one: `1.`, other: `none yet.` })}`, other: `${w.number(p.clean)} clean takes in a row; you have ${ Math.round(p.have) === 0 ? `none yet.` : w.plural(p.have, { one: `1.`, other: `${w.number(p.have)}.` })}` })}`,
  "progress.needs-showing": (p, w) => `Keep playing until the takes show that you are clean about ${w.number(p.able, 0, 1)} % of the time rather than ${w.number(p.unready, 0, 1)} % (${w.number(p.fewest)} takes or more); so far ${w.number(p.clean)} clean, ${w.number(p.beyond)} not.`,
  "progress.gate-met": (p, w) => `The gate is met (${w.text(p.gate)}): on to ${w.text(p.change)}.`,
  "progress.gate-met-last": (p, w) => `The gate is met (${w.text(p.gate)}): drill ${w.text(p.drill)} is complete.`,
  "progress.earned-before": (p, w) => `This rung was earned before, and this take confirms it: on to ${w.text(p.change)}.`,
  "progress.earned-before-last": (p, w) => `This rung was earned before, and this take confirms it: drill ${w.text(p.drill)} is complete.`,
  "progress.back": (p, w) => `The last ${ w.plural(p.takes, { one: `take was `, other: `${w.number(p.takes)} takes were ` })}outside the limits: back to ${w.text(p.change)}, and on from there when the gate is met anew.`,
  "progress.easiest": (p, w) => `The last ${ w.plural(p.takes, { one: `take was `, other: `${w.number(p.takes)} takes were ` })}outside the limits; this is the easiest rung of drill ${w.text(p.drill)}.`,
  "progress.not-open": (p, w) => `Drill ${w.text(p.drill)} is not open yet: it needs ${w.text(p.needs)}. The take is kept.`,
  "progress.drill-complete": (p, w) => `Drill ${w.text(p.drill)} is complete; the take is kept.`,
  "progress.no-such-rung": () => `This edition has no such rung; the take is kept.`,
  "progress.preparation": () => `This was a preparation below the first rung. It counts for nothing, and nothing is at stake in it; the take is kept.`,
  "progress.other-rung": (p, w) => `The take was played to another rung than the student's (${w.text(p.change)}); it is kept.`,
  "progress.opened": (p, w) => `Now open: ${w.text(p.drills)}.`,
  "progress.not-counted": () => `The finding cannot be counted.`,
  "progress.gate-out-of-last": (p, w) => `${ w.plural(p.clean, { one: `1 clean take `, other: `${w.number(p.clean)} clean takes ` })}out of the last ${w.number(p.of)}`,
  "progress.gate-in-a-row": (p, w) => w.plural(p.clean, { one: `1 clean take`, other: `${w.number(p.clean)} clean takes in a row` }),
  "progress.gate-showing": (p, w) => `takes that show you to be clean about ${w.number(p.able, 0, 1)} % of the time rather than ${w.number(p.unready, 0, 1)} % (${w.number(p.fewest)} or more)`,
  "progress.never-let-on": () => `such a player is never let on`,
};
