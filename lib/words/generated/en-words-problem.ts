// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"words-problem", Form> = {
  "words-problem.language-unknown": (p, w) => `there are words in ${w.text(p.languages)}; found "${w.text(p.found)}"`,
  "words-problem.language-unknown-remedy": (p, w) => `write ${w.text(p.language)}`,
  "words-problem.language-unknown-remedy-any": (p, w) => `write one of ${w.text(p.languages)}`,
};
