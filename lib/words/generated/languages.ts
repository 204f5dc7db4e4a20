// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { Topic } from "../catalogueOf.js";
import type { Language } from "../language.js";
import type { Compiled } from "../wording.js";

/** What is known of a language before it is loaded. */
export interface KnownLanguage {
  /** In the language itself. */
  readonly name: string;
  /** Whether a native speaker has read it. */
  readonly isReviewed: boolean;
  /** Topics it has no words for. */
  readonly lacks: readonly Topic[];
  readonly load: () => Promise<{ readonly language: Language; readonly messages: Compiled }>;
}

/** Every language, loaded when it is asked for. */
export const LANGUAGES: { readonly [tag in "en" | "de" | "es" | "fr" | "it" | "ja" | "pt"]: KnownLanguage } = {
  "en": { ...{"name":"English","isReviewed":true,"lacks":[]}, load: () => import("./en.js") },
  "de": { ...{"name":"Deutsch","isReviewed":false,"lacks":[]}, load: () => import("./de.js") },
  "es": { ...{"name":"español","isReviewed":false,"lacks":[]}, load: () => import("./es.js") },
  "fr": { ...{"name":"français","isReviewed":false,"lacks":[]}, load: () => import("./fr.js") },
  "it": { ...{"name":"italiano","isReviewed":false,"lacks":[]}, load: () => import("./it.js") },
  "ja": { ...{"name":"日本語","isReviewed":false,"lacks":[]}, load: () => import("./ja.js") },
  "pt": { ...{"name":"português","isReviewed":false,"lacks":[]}, load: () => import("./pt.js") },
};
