// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"setting", Form> = {
  "setting.name": (p) => p.parameter === "dropout" ? `silence` : p.parameter === "key" ? `key` : p.parameter === "mix" ? `mix` : p.parameter === "open" ? `open bars` : p.parameter === "parts" ? `silent parts` : p.parameter === "rise" ? `rise of tempo` : p.parameter === "tempo" ? `tempo` : `riff`,
  "setting.one": (p, w) => `${ p.parameter === "dropout" ? `silence ` : p.parameter === "key" ? `key ` : p.parameter === "mix" ? `mix ` : p.parameter === "open" ? `open bars ` : p.parameter === "parts" ? `silent parts ` : p.parameter === "rise" ? `rise of tempo ` : p.parameter === "tempo" ? `tempo ` : p.parameter === "variant" ? `riff ` : `${w.text(p.name)} `}${w.text(p.value)}`,
  "setting.all": (p, w) => `${w.text(p.settings)}`,
  "setting.only-rung": () => `the only rung`,
};
