// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"sound", Form> = {
  "sound.title": (p, w) => `${w.text(p.drill)}, ${w.text(p.rung)}, mix ${w.text(p.mix)}`,
  "sound.title-in-course": (p, w) => `${w.text(p.course)}, ${w.text(p.drill)}, ${w.text(p.rung)}, mix ${w.text(p.mix)}`,
  "sound.clicks": () => `Clicks that measure a device`,
  "sound.phrase": (p, w) => `phrase ${w.text(p.number)}`,
  "sound.open": (p, w) => `open: ${w.text(p.scale)}`,
  "sound.out": (p, w) => `out: ${w.text(p.parts)}`,
  "sound.landing": (p, w) => `landing: ${w.text(p.parts)}`,
  "sound.student": () => `student`,
  "sound.count-in": () => `count-in`,
  "sound.outro": () => `outro`,
  "sound.sign": (p) => p.of === "out" ? `out` : `in`,
  "sound.sign-of": (p, w) => `${w.text(p.parts)} ${ p.of === "out" ? `out` : `in`}`,
  "sound.swing": (p, w) => `Swing ${w.text(p.ratio)}`,
  "sound.swung": () => `Swing`,
  "sound.swing-of": (p, w) => `Swing ${w.text(p.ratio)} ${ p.notes === "half" ? `(half ` : p.notes === "quarter" ? `(quarter ` : p.notes === "eighth" ? `(eighth ` : p.notes === "sixteenth" ? `(16th ` : `(32nd `}notes)`,
  "sound.tuning": (p, w) => `A = ${w.text(p.hertz)} Hz`,
  "sound.play-on": (p) => `${ p.who === "student" ? `Play ` : `The demonstration plays `}on through it.`,
  "sound.place-in-phrase": (p, w) => `${w.text(p.place)} of ${w.text(p.phrase)}`,
};
