// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"setting-problem", Form> = {
  "setting-problem.write": (p, w) => `write ${w.text(p.text)}`,
  "setting-problem.setting-not-read": (p, w) => `a setting is written name=value, such as tempo=96; found ${w.text(p.found)}`,
  "setting-problem.setting-not-read-tempo": (p, w) => `the tempo of a setting is a number alone, such as tempo=96; found ${w.text(p.found)}`,
  "setting-problem.setting-not-read-rise": (p, w) => `the tempo rises inside a take by beats a minute and phrases, such as 4 each 2 phrases, or none; found ${w.text(p.found)}`,
  "setting-problem.setting-not-read-open": (p, w) => `open bars are bar numbers joined by +, such as open=3+4, or open=none; found ${w.text(p.found)}`,
  "setting-problem.setting-not-read-name": (p, w) => `a ${ p.parameter === "mix" ? `mix ` : `variant `}has a name; found ${w.text(p.found)}`,
  "setting-problem.setting-not-read-lengths": (p, w) => `growing silences are written such as 1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases, in one unit, with steps that reach the end within ${w.number(p.most)} phrases; found ${w.text(p.found)}`,
  "setting-problem.setting-unknown": (p, w) => `the settings are ${w.text(p.parameters)}; found ${w.text(p.found)}`,
  "setting-problem.setting-twice": (p, w) => `each setting is written once; ${w.text(p.parameter)} is there twice`,
  "setting-problem.length-too-fine": (p, w) => `a length is counted in parts no finer than ${w.text(p.finest)}; found ${w.text(p.found)} of a ${ p.unit === "bar" ? `bar` : p.unit === "beat" ? `beat` : `note`}`,
  "setting-problem.length-too-fine-remedy": () => `write a coarser part, such as 1/2, 1/3 or 1/8`,
};
