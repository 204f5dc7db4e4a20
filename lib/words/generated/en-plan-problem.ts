// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"plan-problem", Form> = {
  "plan-problem.plan-minutes-out-of-range": (p, w) => `a plan is for more than 0 and at most ${w.number(p.most)} minutes, found ${w.text(p.found)}`,
  "plan-problem.plan-date-not-read": (p, w) => `a date is written as 2026-03-12, found ${w.text(p.found)}`,
  "plan-problem.plan-curriculum-other": (p, w) => `the standing is in ${w.text(p.standing)}, the course given is ${w.text(p.given)}`,
  "plan-problem.plan-option-out-of-range": (p, w) => `${w.text(p.option)} must be from ${w.number(p.low, 0, 3)} to ${w.number(p.high, 0, 3)}, found ${w.text(p.found)}`,
  "plan-problem.deadline-past": (p, w) => `the day to be ready by must come after today, ${w.text(p.today)}; found ${w.text(p.found)}`,
};
