// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"record-problem", Form> = {
  "record-problem.record-address-not-absolute": (p, w) => `the ${ p.which === "home" ? `home page ` : `address activities begin with `}must be an absolute web address without query or fragment, found ${w.text(p.found)}`,
  "record-problem.record-address-not-absolute-remedy": () => `write it as https://quayside.example`,
  "record-problem.record-key-too-short": (p, w) => `the key for pseudonyms must have at least ${w.number(p.least)} bytes, found ${w.number(p.found)}`,
  "record-problem.record-key-too-short-remedy": () => `let a program draw it: openssl rand -hex 32`,
  "record-problem.record-time-impossible": (p, w) => `event ${w.text(p.turn)} of a journal happened at ${w.text(p.at)}, which is no day; it is left out`,
};
