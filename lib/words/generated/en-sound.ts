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
  "sound.sign-of": (p, w) => p.of === "out" ? `${w.text(p.parts)} out` : `${w.text(p.parts)} in`,
  "sound.swing": (p, w) => `Swing ${w.text(p.ratio)}`,
  "sound.swung": () => `Swing`,
  "sound.swing-of": (p, w) => p.notes === "half" ? `Swing ${w.text(p.ratio)} (half notes)` : p.notes === "quarter" ? `Swing ${w.text(p.ratio)} (quarter notes)` : p.notes === "eighth" ? `Swing ${w.text(p.ratio)} (eighth notes)` : p.notes === "sixteenth" ? `Swing ${w.text(p.ratio)} (16th notes)` : `Swing ${w.text(p.ratio)} (32nd notes)`,
  "sound.tuning": (p, w) => `A = ${w.text(p.hertz)} Hz`,
  "sound.play-on": (p) => p.who === "student" ? `Play on through it.` : `The demonstration plays on through it.`,
  "sound.place-in-phrase": (p, w) => `${w.text(p.place)} of ${w.text(p.phrase)}`,
};
