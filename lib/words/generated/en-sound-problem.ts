// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"sound-problem", Form> = {
  "sound-problem.sound-too-long": (p, w) => `cannot be rendered as sound: a take lasts at most ${w.text(p.most)} seconds, this one lasts ${w.text(p.found)}`,
  "sound-problem.sound-too-long-remedy": () => `give the drill fewer phrases`,
  "sound-problem.synthesiser-missing": () => `sound banks are played by the package spessasynth_core, which is not installed`,
  "sound-problem.synthesiser-missing-remedy": () => `npm install spessasynth_core, or leave the bank out to hear the built-in voices`,
  "sound-problem.sound-bank-not-read": (p, w) => `cannot be used as a sound bank: it must be a whole SF2, SF3 or DLS file; ${w.text(p.reason)}`,
  "sound-problem.sound-bank-not-read-remedy": () => `fetch the bank again, or leave it out to hear the built-in voices`,
  "sound-problem.bank-begins": () => `a bank begins with the letters RIFF`,
  "sound-problem.bank-cut": (p, w) => `it states ${w.text(p.stated)} bytes, of which ${w.text(p.found)} are there`,
  "sound-problem.bank-empty": () => `it has no instruments`,
  "sound-problem.bank-senseless": () => `its bytes make no sense`,
  "sound-problem.sound-bank-without-kit": (p, w) => `the sound bank ${w.text(p.bank)} has no drum kit, which part ${w.text(p.part)} asks for; another of its instruments is heard`,
  "sound-problem.sound-bank-without-instrument": (p, w) => `the sound bank ${w.text(p.bank)} has no General MIDI program ${w.number(p.program)}, which part ${w.text(p.part)} asks for; another of its instruments is heard`,
  "sound-problem.too-many-sound-files": (p, w) => `cannot be rendered at once: at most ${w.text(p.most)} files are, drill ${w.text(p.drill)} has ${w.text(p.found)}`,
  "sound-problem.too-many-sound-files-remedy": () => `choose rungs or mixes`,
  "sound-problem.recorded-part-not-given": (p, w) => `part ${w.text(p.part)} is the recording ${w.text(p.file)}, which was not given to what renders the sound`,
  "sound-problem.recorded-part-not-given-remedy": () => `make each recording of the score ready (recordingsIn, makeReady), and pass them as recordings`,
};
