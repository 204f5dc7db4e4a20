// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"languages", Form> = {
  "languages.unreviewed": () => `No native speaker has read these words yet. Tell us what is wrong with them.`,
  "languages.partly": () => `Some sentences are in English so far, most of them about mistakes in a course.`,
  "languages.state": (p) => `${ p.state === "reviewed" ? `` : `not yet `}read by a native speaker`,
  "languages.unknown-of-course": (p, w) => `The course asks for the language ${w.text(p.found)}, of which there are no words: the answer is in English.`,
};
