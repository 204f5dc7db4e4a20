// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"compiled-problem", Form> = {
  "compiled-problem.compiled-course-unreadable": () => `a compiled course is one JSON document with version, checksum and course; found something else`,
  "compiled-problem.compiled-version-unknown": (p, w) => `compiled courses of version ${w.text(p.known)} can be opened; found version ${w.text(p.found)}`,
  "compiled-problem.compiled-course-altered": (p, w) => `the course must have the checksum it was written with, ${w.text(p.written)}; found ${w.text(p.found)}`,
  "compiled-problem.remedy": () => `compile the course again: leeway compile COURSE.yaml`,
};
