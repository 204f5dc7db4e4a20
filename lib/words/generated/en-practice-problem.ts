// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"practice-problem", Form> = {
  "practice-problem.student-unknown": (p, w) => `nobody called ${w.text(p.student)} is enrolled in ${w.text(p.place)}`,
  "practice-problem.student-unknown-remedy": () => `enrol the student first`,
  "practice-problem.student-nearest-remedy": (p, w) => `write ${w.text(p.nearest)}, or enrol the student first`,
  "practice-problem.journal-erased": () => `the journal was erased meanwhile`,
  "practice-problem.journal-erased-remedy": () => `send the take again`,
  "practice-problem.student-name-length": (p, w) => `the name of a student must have 1 to ${w.number(p.most)} characters, found ${w.number(p.found)}`,
  "practice-problem.student-name-length-remedy": () => `a pseudonym is enough`,
  "practice-problem.not-enrolled-in-course": (p, w) => `${w.text(p.student)} is not enrolled in ${w.text(p.course)}, but in ${w.text(p.courses)}`,
  "practice-problem.not-enrolled-in-course-remedy": () => `enrol the student in this course first`,
  "practice-problem.nobody-in-course": (p, w) => `nobody in ${w.text(p.place)} is enrolled in ${w.text(p.course)}`,
  "practice-problem.nobody-in-course-remedy": (p, w) => `write ${w.text(p.nearest)}`,
  "practice-problem.course-not-chosen": (p, w) => `${w.text(p.student)} is enrolled in ${w.text(p.courses)}`,
  "practice-problem.course-not-chosen-remedy": () => `name the course`,
  "practice-problem.course-not-kept": (p, w) => `edition ${w.text(p.edition)} of ${w.text(p.course)} is not kept in ${w.text(p.place)}`,
  "practice-problem.course-not-kept-remedy": () => `give its file`,
  "practice-problem.drill-not-chosen": (p, w) => `${w.text(p.student)} works on ${w.text(p.drills)}, and a take does not say which it is of`,
  "practice-problem.no-drill-open": (p, w) => `${w.text(p.student)} has no drill open`,
  "practice-problem.drill-not-chosen-remedy": () => `name the drill`,
  "practice-problem.take-not-named": () => `a take must have an id`,
  "practice-problem.take-not-named-remedy": () => `give each take an id of its own when it is played, such as a UUID, and keep it when it is sent again`,
  "practice-problem.take-rung-not-said": (p) => p.missing === "drill" ? `a take must say the drill it was played to, found nothing` : `a take must say the rung it was played to, found nothing`,
  "practice-problem.take-rung-numbered": (p, w) => `a take must say the rung it was played to, found the number ${w.text(p.number)}, which is another rung in another edition`,
  "practice-problem.take-rung-not-said-remedy": () => `write what was on the stand when it was played: the drill's name and the settings of the rung`,
  "practice-problem.take-id-reused": (p, w) => `take ${w.text(p.take)} was counted for ${w.text(p.drill)}, ${w.text(p.rung)}; now it says ${w.text(p.otherDrill)}, ${w.text(p.otherRung)}`,
  "practice-problem.take-id-reused-remedy": () => `if it is another take, give it an id of its own`,
};
