// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"key-problem", Form> = {
  "key-problem.write": (p, w) => `write ${w.text(p.text)}`,
  "key-problem.write-one-of": (p, w) => `write one of ${w.text(p.names)}`,
  "key-problem.key-not-read": (p, w) => `a key or scale is a tonic and a name, such as D dorian or Bb major; found ${w.text(p.found)}`,
  "key-problem.key-not-read-remedy": () => `write for instance D dorian`,
  "key-problem.scale-unknown": (p, w) => `no scale or mode is called ${w.text(p.found)}`,
};
