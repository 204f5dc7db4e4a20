// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"note-word", Form> = {
  "note-word.is": (p) => p.word === "dots" ? `... at the end of a line repeats the bars so far` : p.word === "rest" ? `rest is silence for one length, and alone in a bar for the whole bar` : p.word === "same" ? `same is the bar before once more` : p.word === "tie" ? `tie lets the note before it go on sounding, over a bar line too` : `3 in 2 [ begins a tuplet: three notes in the time of two, up to ]`,
};
