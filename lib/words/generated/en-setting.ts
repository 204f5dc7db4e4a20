// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"setting", Form> = {
  "setting.one": (p, w) => p.parameter === "dropout" ? `dropout ${w.text(p.value)}` : p.parameter === "key" ? `key ${w.text(p.value)}` : p.parameter === "mix" ? `mix ${w.text(p.value)}` : p.parameter === "open" ? `open ${w.text(p.value)}` : p.parameter === "parts" ? `parts ${w.text(p.value)}` : p.parameter === "tempo" ? `tempo ${w.text(p.value)}` : p.parameter === "variant" ? `variant ${w.text(p.value)}` : `${w.text(p.name)} ${w.text(p.value)}`,
  "setting.all": (p, w) => `${w.text(p.settings)}`,
};
