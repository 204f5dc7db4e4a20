// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"pitch-problem", Form> = {
  "pitch-problem.pitch-not-read": (p, w) => `a pitch is a letter from A to G, up to two b or #, and an octave, such as D4, Bb3 or F#5; found ${w.text(p.found)}`,
  "pitch-problem.pitch-not-read-remedy": () => `write for instance D4, Bb3 or F#5`,
  "pitch-problem.pitch-out-of-range": (p, w) => `${w.text(p.found)} is beyond the pitches of MIDI, C-1 to G9`,
  "pitch-problem.pitch-out-of-range-remedy": (p, w) => `check the octave: C4 is middle C, so write for instance ${w.text(p.pitch)}`,
};
