// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"sound", Form> = {
  "sound.title": (p, w) => `${w.text(p.drill)}, ${w.text(p.rung)}, mix ${w.text(p.mix)}`,
  "sound.title-in-course": (p, w) => `${w.text(p.course)}, ${w.text(p.drill)}, ${w.text(p.rung)}, mix ${w.text(p.mix)}`,
  "sound.clicks": () => `Clicks that measure a device`,
};
