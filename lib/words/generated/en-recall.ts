// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"recall", Form> = {
  "recall.held-in-edition": (p, w) => `The take was counted in edition ${w.text(p.edition)} and changed nothing then; the reason is in the rules of that edition.`,
  "recall.decided-before": () => `The take was counted, and changed nothing, as another decision came first.`,
};
