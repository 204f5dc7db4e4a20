// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"journal-problem", Form> = {
  "journal-problem.journal-line-not-json": (p, w) => `a line of a journal must be one event in JSON, found ${w.text(p.found)}`,
  "journal-problem.journal-gap": (p, w) => `event ${w.text(p.id)} has turn ${w.text(p.turn)}, and the last one before it ${w.text(p.before)}; turns go up by one`,
  "journal-problem.journal-gap-remedy": () => `look for events that were lost or have not arrived`,
  "journal-problem.event-not-object": (p, w) => `an event must be an object, found ${w.text(p.found)}`,
  "journal-problem.event-version-unknown": (p, w) => p.named === "named" ? `event ${w.text(p.id)} must be of version 1 or 2, found ${w.text(p.found)}` : `an event without id must be of version 1 or 2, found ${w.text(p.found)}`,
  "journal-problem.event-version-unknown-remedy": () => `read it with the version of leeway that wrote it`,
  "journal-problem.event-kind-unknown": (p, w) => p.named === "named" ? `the kind of event ${w.text(p.id)} must be one of ${w.text(p.kinds)}, found ${w.text(p.found)}` : `the kind of an event without id must be one of ${w.text(p.kinds)}, found ${w.text(p.found)}`,
  "journal-problem.event-field-wrong": (p, w) => p.named === "named" ? `${w.text(p.field)} of event ${w.text(p.id)} is not what it has to be (schemas/event.schema.json), found ${w.text(p.found)}` : `${w.text(p.field)} of an event without id is not what it has to be (schemas/event.schema.json), found ${w.text(p.found)}`,
  "journal-problem.event-field-unknown": (p, w) => p.named === "named" ? `event ${w.text(p.id)} has the field ${w.text(p.field)}, which no event of its kind has` : `an event without id has the field ${w.text(p.field)}, which no event of its kind has`,
  "journal-problem.event-id-of-take": (p, w) => `the id of the take ${w.text(p.take)} must be ${w.text(p.id)}, found ${w.text(p.found)}`,
  "journal-problem.nothing": () => `nothing`,
  "journal-problem.list": (p, w) => `a list of ${w.number(p.count)}`,
  "journal-problem.object": () => `an object`,
  "journal-problem.event-foreign": (p, w) => `event ${w.text(p.id)} is of ${w.text(p.student)} in ${w.text(p.curriculum)}; this journal is of ${w.text(p.owner)} in ${w.text(p.course)}`,
  "journal-problem.event-id-reused": (p, w) => `two events with the id ${w.text(p.id)} say different things; the first counts`,
  "journal-problem.event-behind": (p, w) => `event ${w.text(p.id)} (turn ${w.text(p.turn)}) belongs before ${w.text(p.latest)} (turn ${w.text(p.latestTurn)}), which is counted`,
  "journal-problem.event-behind-remedy": () => `if it is not known yet, fold the journal with it`,
  "journal-problem.not-enrolled": (p, w) => `event ${w.text(p.id)} comes before any enrolment`,
  "journal-problem.evidence-unknown": (p, w) => `event ${w.text(p.id)} rests on take ${w.text(p.take)}, which the journal does not have before it for that rung`,
  "journal-problem.evidence-contradicted": (p, w) => p.wanted === "within" ? `event ${w.text(p.id)} lists take ${w.text(p.take)}, which must be within tolerance, listed once and in order` : `event ${w.text(p.id)} lists take ${w.text(p.take)}, which must be beyond tolerance, listed once and in order`,
  "journal-problem.evidence-too-little": (p, w) => `event ${w.text(p.id)} needs ${w.number(p.after)} takes beyond tolerance and lists ${w.number(p.found)}`,
  "journal-problem.gate-not-met": (p, w) => `event ${w.text(p.id)} lists ${w.number(p.clean)} clean takes and ${w.number(p.beyond)} beyond tolerance, which do not meet its gate`,
  "journal-problem.needs-not-met": (p, w) => `event ${w.text(p.id)} opens drill ${w.text(p.drill)}, which needs ${w.text(p.needs)} completed before`,
  "journal-problem.overtaken-enrolled": (p, w) => `event ${w.text(p.id)} has no effect: the student was enrolled already`,
  "journal-problem.overtaken-open": (p, w) => `event ${w.text(p.id)} has no effect: drill ${w.text(p.drill)} was open already`,
  "journal-problem.overtaken-edition": (p, w) => `event ${w.text(p.id)} has no effect: the edition in force was ${w.text(p.edition)}, not ${w.text(p.from)}`,
  "journal-problem.overtaken-rung": (p, w) => `event ${w.text(p.id)} has no effect: the student was not on ${w.text(p.rung)}`,
  "journal-problem.overtaken-takes": (p, w) => `event ${w.text(p.id)} has no effect: it rests on takes from before the student came to the rung`,
  "journal-problem.overtaken-credit": (p, w) => `event ${w.text(p.id)} has no effect: the credit it rests on had lapsed, or no take was added to it`,
};
