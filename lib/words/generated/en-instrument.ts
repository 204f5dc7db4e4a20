// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"instrument", Form> = {
  "instrument.name": (p, w) => `${w.text(p.english)}`,
};
