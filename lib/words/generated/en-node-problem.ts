// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"node-problem", Form> = {
  "node-problem.output-disk-full": (p, w) => `cannot be written: the disk is full (${w.text(p.error)})`,
  "node-problem.output-disk-full-remedy": () => `make room, then run the same again: what is finished is not made twice`,
  "node-problem.output-not-allowed": (p, w) => `cannot be written: it may not be (${w.text(p.error)})`,
  "node-problem.output-not-allowed-remedy": () => `choose another folder`,
  "node-problem.output-folder-missing": () => `cannot be written: its folder is not there`,
  "node-problem.output-folder-missing-remedy": () => `make the folder, then run the same again: what is finished is not made twice`,
  "node-problem.output-name-taken": (p, w) => `cannot be written: a folder or file of another kind is in its way (${w.text(p.error)})`,
  "node-problem.output-name-taken-remedy": () => `move it away or choose another folder`,
  "node-problem.output-not-written": (p, w) => `cannot be written (${w.text(p.error)})`,
  "node-problem.rendering-stopped": (p, w) => `stopped after ${w.text(p.done)} of ${w.text(p.count)} files`,
  "node-problem.rendering-stopped-remedy": () => `run the same again for the rest`,
  "node-problem.rendering-failed": (p, w) => `a rendering thread ended unexpectedly: ${w.text(p.error)}`,
  "node-problem.sound-encoder-missing": (p, w) => p.has === "program" ? `${w.text(p.format)} is written by the program ffmpeg, and the one installed here lacks its encoder ${w.text(p.encoder)}` : `${w.text(p.format)} is written by the program ffmpeg, which is not installed here`,
  "node-problem.sound-encoder-missing-remedy": (p, w) => p.has === "program" ? `install an ffmpeg built with ${w.text(p.encoder)}, as the packages of most systems are, or choose wav or flac` : `install ffmpeg (built with ${w.text(p.encoder)}), or choose wav or flac`,
  "node-problem.sound-encoding-failed": (p, w) => `ffmpeg gave up on this ${w.text(p.format)} file (${w.text(p.error)})`,
  "node-problem.sound-encoding-failed-remedy": () => `run the same again, or choose wav or flac`,
  "node-problem.sound-bank-not-found": (p, w) => `cannot be used as a sound bank: a file that can be read is required (${w.text(p.error)})`,
  "node-problem.sound-bank-not-found-remedy": () => `check the name, or leave the bank out to hear the built-in voices`,
  "node-problem.unknown-reason": () => `unknown reason`,
  "node-problem.recording-decoder-stuck": (p, w) => `ffmpeg, which decodes this ${w.text(p.format)} file, stood still for ${w.text(p.seconds)} s and was stopped`,
  "node-problem.recording-decoder-stuck-remedy": () => `try again, or save it as WAV, FLAC or MP3`,
  "node-problem.recording-decoder-failed": (p, w) => p.told === "told" ? `ffmpeg gave up on this ${w.text(p.format)} file (${w.text(p.error)})` : `ffmpeg gave up on this ${w.text(p.format)} file`,
  "node-problem.recording-decoder-failed-remedy": () => `it is broken, protected or cut off: save it again`,
  "node-problem.recording-damaged": (p, w) => `ffmpeg found broken stretches in this ${w.text(p.format)} file`,
  "node-problem.recording-damaged-remedy": () => `record it again if notes were played there`,
  "node-problem.recording-start-unstated": (p, w) => `a bare AAC stream does not say how much silence precedes the sound; ${w.text(p.samples)} samples are taken off, which may be wrong by 25 ms for all notes alike`,
  "node-problem.recording-start-unstated-remedy": () => `leave the latency of the recording untold, or save it as M4A`,
  "node-problem.recording-decoder-missing": (p, w) => `${w.text(p.format)} is decoded by the program ffmpeg, which is not installed here`,
  "node-problem.recording-decoder-missing-remedy": () => `install ffmpeg, or save it as WAV, FLAC or MP3`,
  "node-problem.recording-no-file": () => `it is no regular file, and a recording has to be one`,
  "node-problem.recording-read-failed": (p, w) => `it cannot be read (${w.text(p.error)})`,
};
