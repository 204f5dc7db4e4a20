// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf, Topic } from "../catalogueOf.js";
import type { Language } from "../language.js";

interface LoadedLanguage {
  readonly language: Language;
  readonly messages: CatalogueOf<Topic>;
}

/** Every language, loaded when it is asked for. */
export const LANGUAGES: { readonly [tag in "en"]: () => Promise<LoadedLanguage> } = {
  "en": () => import("./en.js"),
};
