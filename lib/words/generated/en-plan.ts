// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"plan", Form> = {
  "plan.warm-up": () => `easy for you: settle in`,
  "plan.rest": () => `five minutes off after about 25 of playing is common advice`,
  "plan.easier-first": (p, w) => `easier first: here ${w.text(p.easier)} is likely clean, on your own rung ${w.text(p.own)}`,
  "plan.often": (p, w) => w.plural(p.count, { one: `1 take in ${w.number(p.of)}`, other: `${w.number(p.count)} takes in ${w.number(p.of)}` }),
  "plan.still-hard": (p, w) => `still hard (about ${w.text(p.often)} clean): try it a few times, then ask your teacher for an easier start`,
  "plan.your-rung": (p, w) => p.reach === "easy" ? w.plural(p.needed, { one: `your rung, within your reach (about ${w.text(p.often)} clean); 1 more clean take may let you on`, other: `your rung, within your reach (about ${w.text(p.often)} clean); ${w.number(p.needed)} more clean takes may let you on` }) : p.reach === "right" ? w.plural(p.needed, { one: `your rung, about right for you (about ${w.text(p.often)} clean); 1 more clean take may let you on`, other: `your rung, about right for you (about ${w.text(p.often)} clean); ${w.number(p.needed)} more clean takes may let you on` }) : w.plural(p.needed, { one: `your rung, harder than usual (about ${w.text(p.often)} clean); 1 more clean take may let you on`, other: `your rung, harder than usual (about ${w.text(p.often)} clean); ${w.number(p.needed)} more clean takes may let you on` }),
  "plan.show-again": () => `its last takes no longer meet its gate: show it again`,
  "plan.never-heard": () => `complete, but never heard here: look whether it is there`,
  "plan.last-played": (p, w) => Math.round(p.days) === 0 ? `played today: play it to see that it is still there` : Math.round(p.days) === 1 ? `last played yesterday: play it to see that it is still there` : w.plural(p.days, { one: `last played ${w.number(p.days)} day ago: play it to see that it is still there`, other: `last played ${w.number(p.days)} days ago: play it to see that it is still there` }),
  "plan.no-drill-open": () => `No drill is open: enrol the student, or let the teacher open one.`,
  "plan.no-time": (p, w) => `There is no time for a take: the shortest, of ${w.text(p.drill)} (${w.text(p.rung)}), needs ${w.number(p.seconds)} s with its pause.`,
  "plan.left-over": (p, w) => w.plural(p.minutes, { one: `1 minute is left over: more of the same in one go would do little. Play other music, or stop early.`, other: `${w.number(p.minutes)} minutes are left over: more of the same in one go would do little. Play other music, or stop early.` }),
  "plan.taking-turns": () => `The drills take turns because that was asked for: in studies of applied settings taking turns helped little or not at all (Czyż et al. 2024).`,
  "plan.nothing-heard": () => `Nothing was heard of this student yet: the chances are those of any player.`,
  "plan.head": (p, w) => `${w.text(p.student)}, ${w.text(p.today)}: ${w.number(p.used)} of ${w.number(p.minutes)} minutes`,
  "plan.kind": (p) => p.kind === "warm-up" ? `warm-up` : p.kind === "new-work" ? `new work` : p.kind === "build-up" ? `build-up` : p.kind === "review" ? `review` : `rest`,
  "plan.minutes": (p, w) => w.plural(p.minutes, { one: `1 minute`, other: `${w.number(p.minutes)} minutes` }),
  "plan.takes": (p, w) => w.plural(p.takes, { one: `${w.text(p.title)}, 1 take: ${w.text(p.rung)}, mix ${w.text(p.mix)}`, other: `${w.text(p.title)}, ${w.number(p.takes)} takes: ${w.text(p.rung)}, mix ${w.text(p.mix)}` }),
  "plan.rung": (p, w) => `rung ${w.number(p.number)}`,
  "plan.setting": (p, w) => `${w.text(p.parameter)} ${w.text(p.value)}`,
  "plan.outlook-complete": (p, w) => `Everything that is to be ready by ${w.text(p.on)} is complete already.`,
  "plan.outlook-no-time": (p, w) => w.plural(p.left, { one: w.plural(p.days, { one: `Not by ${w.text(p.on)}: 1 rung is left in ${w.text(p.drills)}, and 1 day has room for about ${w.number(p.takes)} takes of new work.`, other: `Not by ${w.text(p.on)}: 1 rung is left in ${w.text(p.drills)}, and ${w.number(p.days)} days have room for about ${w.number(p.takes)} takes of new work.` }), other: w.plural(p.days, { one: `Not by ${w.text(p.on)}: ${w.number(p.left)} rungs are left in ${w.text(p.drills)}, and 1 day has room for about ${w.number(p.takes)} takes of new work.`, other: `Not by ${w.text(p.on)}: ${w.number(p.left)} rungs are left in ${w.text(p.drills)}, and ${w.number(p.days)} days have room for about ${w.number(p.takes)} takes of new work.` }) }),
  "plan.outlook": (p, w) => w.plural(p.left, { one: w.plural(p.days, { one: `Complete by ${w.text(p.on)}: ${w.text(p.drills)}? By the forecast ${w.text(p.chance)} (1 day, about ${w.number(p.takes)} takes of new work, 1 rung left).`, other: `Complete by ${w.text(p.on)}: ${w.text(p.drills)}? By the forecast ${w.text(p.chance)} (${w.number(p.days)} days, about ${w.number(p.takes)} takes of new work, 1 rung left).` }), other: w.plural(p.days, { one: `Complete by ${w.text(p.on)}: ${w.text(p.drills)}? By the forecast ${w.text(p.chance)} (1 day, about ${w.number(p.takes)} takes of new work, ${w.number(p.left)} rungs left).`, other: `Complete by ${w.text(p.on)}: ${w.text(p.drills)}? By the forecast ${w.text(p.chance)} (${w.number(p.days)} days, about ${w.number(p.takes)} takes of new work, ${w.number(p.left)} rungs left).` }) }),
  "plan.chance": (p, w) => p.chance === "almost-sure" ? w.plural(p.times, { one: `almost surely`, other: `almost surely` }) : p.chance === "probable" ? w.plural(p.times, { one: `probably, about 1 time in 10`, other: `probably, about ${w.number(p.times)} times in 10` }) : p.chance === "even" ? w.plural(p.times, { one: `as likely as not`, other: `as likely as not` }) : p.chance === "improbable" ? w.plural(p.times, { one: `probably not: about 1 time in 10`, other: `probably not: about ${w.number(p.times)} times in 10` }) : w.plural(p.times, { one: `almost surely not`, other: `almost surely not` }),
};
