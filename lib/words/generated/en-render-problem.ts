// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"render-problem", Form> = {
  "render-problem.midi-tempo-unwritable": (p, w) => `a MIDI file states at most ${w.text(p.most)} microseconds to a quarter note; this tempo has ${w.text(p.found)}`,
  "render-problem.voice-without-key": (p, w) => `${w.text(p.part)}: a percussion note sounds on a General MIDI key; the voice ${w.text(p.voice)} at ${w.text(p.position)} has none`,
  "render-problem.midi-without-recording": (p, w) => `a MIDI file has no sound: ${ p.has === "notes" ? `in place of the recording of part ${w.text(p.part)} it has the notes beside ` : `part ${w.text(p.part)} is a recording without notes, and silent in `}it`,
  "render-problem.pitch-in-part": (p, w) => `${w.text(p.part)}: ${w.text(p.problem)} at ${w.text(p.position)}`,
  "render-problem.in-drill": (p, w) => `drill ${w.text(p.drill)}: ${w.text(p.problem)}`,
  "render-problem.no-octave-fits-remedy": (p, w) => `no octave of ${w.text(p.instrument)} has the part in any key; name an instrument that reaches further, or nobody to have it at concert pitch`,
  "render-problem.divisions-too-many": (p, w) => `the lengths of a page have at most ${w.text(p.most)} divisions of a quarter note in common; found ${w.text(p.found)}`,
  "render-problem.note-not-notatable": (p, w) => `notes are written in note values down to a 256th and tuplets up to 15; bar ${w.text(p.bar)} of ${w.text(p.staff)} has others`,
  "render-problem.note-not-notatable-remedy": () => `quantise the part before exporting it`,
};
