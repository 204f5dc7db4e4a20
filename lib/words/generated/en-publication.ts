// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"publication", Form> = {
  "publication.practise": () => `Practise`,
  "publication.practise-hint": () => `The practice page plays the band, listens to you and says what a take showed.`,
  "publication.rung": () => `Practise this rung`,
  "publication.one-file": () => `The practice page as one file to keep; it opens by a double click`,
  "publication.overview": () => `The whole course on paper (PDF)`,
  "publication.edition": (p, w) => `Edition ${w.text(p.edition)}`,
  "publication.for-all": () => `To take along`,
  "publication.everything": (p, w) => `Everything for ${w.text(p.player)} in one file (ZIP, ${w.number(p.megabytes, 0, 1)} MB)`,
  "publication.all-but-sound": (p, w) => `Everything for ${w.text(p.player)} but what sounds, in one file (ZIP, ${w.number(p.megabytes, 0, 1)} MB)`,
  "publication.sound-for-all": (p, w) => `What sounds, for all instruments: unpack it into the same folder (ZIP, ${w.number(p.megabytes, 0, 1)} MB)`,
  "publication.sound": () => `What sounds`,
  "publication.sheets": () => `Sheets (PDF)`,
  "publication.band": () => `For those who accompany (PDF)`,
  "publication.strip": () => `The first rung: when the band plays, when it is silent, and when it returns.`,
};
