// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"server", Form> = {
  "server.consent": () => `Kept here are the name you choose, when the notes of your takes began, what each take showed and what was decided. No recording is kept. Your teachers see it. You can have all of it erased at any time.`,
};
