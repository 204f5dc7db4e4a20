// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"key-problem", Form> = {
  "key-problem.write": (p, w) => `write ${w.text(p.text)}`,
  "key-problem.key-not-read": (p, w) => `a key or scale is a tonic and a name, such as D dorian or Bb major; found ${w.text(p.found)}`,
  "key-problem.key-not-read-remedy": (p, w) => `write for instance ${w.text(p.example)}`,
  "key-problem.scale-not-read": (p, w) => `a scale is written as its notes, upwards from the tonic, each once and within an octave; found ${w.text(p.found)}`,
  "key-problem.scale-not-read-remedy": (p, w) => `write for instance ${w.text(p.example)}`,
  "key-problem.scale-unknown-remedy": (p, w) => `write for instance one of ${w.text(p.names)}, or another name that leeway words scales lists`,
  "key-problem.scale-unknown": (p, w) => `no scale or mode is called ${w.text(p.found)}`,
};
