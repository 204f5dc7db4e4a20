// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"listen-problem", Form> = {
  "listen-problem.take-track-missing": (p, w) => `track ${w.text(p.track)} was asked for; the file has ${w.text(p.count)}`,
  "listen-problem.take-track-unclear": (p, w) => `the file holds separate sequences and one must be chosen; tracks ${w.text(p.tracks)} have notes`,
  "listen-problem.take-track-unclear-remedy": (p, w) => `choose one of the tracks ${w.text(p.tracks)}`,
  "listen-problem.take-without-notes": () => `no note was found, so the take counts as silent`,
  "listen-problem.take-several-tracks": (p, w) => `tracks ${w.text(p.tracks)} have notes, and all count as the student's`,
  "listen-problem.take-several-tracks-remedy": () => `choose the student's track`,
  "listen-problem.take-too-long": (p, w) => `a take has at most ${w.text(p.most)} notes within ${w.text(p.latest)} s; found ${w.text(p.found)} notes, the last after ${w.text(p.last)} s`,
  "listen-problem.latency-unclear": (p, w) => `at least ${w.number(p.least)} onsets and ${w.number(p.percent)} % of all have to follow the clicks at one delay; found ${w.text(p.found)} of ${w.text(p.of)} onsets in recording ${w.number(p.recording)}`,
  "listen-problem.latency-unclear-remedy": () => `start playing and recording together, in a quiet room`,
  "listen-problem.backing-not-heard": () => `the backing is not to be heard in the recording`,
  "listen-problem.backing-not-heard-remedy": () => `with headphones leave the backing out; else play it louder`,
  "listen-problem.recording-start-assumed": () => `the count-in is taken to begin with the recording, as nothing says when it began`,
  "listen-problem.recording-start-assumed-remedy": () => `say at which second of the recording the count-in begins`,
  "listen-problem.backing-place-unclear": (p, w) => `the backing fits the recording nearly as well from ${w.number(p.start, 2)} s and ${w.number(p.rival, 2)} s; the first is taken`,
  "listen-problem.backing-too-loud": (p, w) => `the backing is ${w.number(p.decibels)} dB louder than the player, and at most ${w.number(p.most)} dB can be listened through`,
  "listen-problem.backing-too-loud-remedy": () => `play the backing softer, or put the phone nearer to the instrument`,
  "listen-problem.backing-hides-notes": (p, w) => `notes may be hidden by the backing in bars ${w.text(p.bars)}`,
  "listen-problem.backing-hides-notes-at": (p, w) => `notes may be hidden by the backing in ${w.text(p.times)}`,
  "listen-problem.backing-hides-notes-remedy": () => `hear the backing with headphones, at a level at which you could still talk over it, and record only yourself; else play the backing softer, or put the microphone nearer to the instrument`,
  "listen-problem.other-sounds": (p, w) => `${ w.plural(p.count, { one: `one sound beside the player's notes, weaker than they, was `, other: `${w.number(p.count)} sounds beside the player's notes, weaker than they, were ` })}left out`,
  "listen-problem.other-sounds-remedy": () => `record where nobody speaks, with the microphone near the instrument`,
  "listen-problem.second": (p, w) => `${w.number(p.second, 1)} s`,
  "listen-problem.recording-without-notes": () => `no note was heard, so the take counts as silent`,
};
