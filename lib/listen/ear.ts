import { envelopesOf, LATE } from "./attack.js";
import { ATTACKS } from "./families.js";
import { framesOf } from "./frames.js";

import { history } from "./history.js";
import { monoOf } from "./mono.js";
import { notesOf } from "./notes.js";
import type { HeardOnset, HeardOnsets, ListeningOptions } from "./onsets.js";
import type { Peak } from "./peaks.js";
import { riseOf } from "./rise.js";
import { seekerOf } from "./seeker.js";
import { spectrumShapeAt } from "./spectrumShape.js";

/** Samples that are remembered, seconds: a peak is known only after it, and its attack reaches back from there (our choice, ample). */
const REMEMBERED = 1;
/** Samples that are worked on at a time, so that what is remembered suffices. */
const PIECE = 4096;
/** Silence after the end so that the last notes are known, seconds. */
const AFTERMATH = 0.4;

/** From the samples of a recording to its onsets: mixed down, freed from offset, searched for peaks of the flux, each timed by its attack. */
export function earFor(
  form: { rate: number; count: number },
  { family, masking }: ListeningOptions,
): { push: (channels: readonly Float32Array[]) => readonly HeardOnset[]; finish: () => HeardOnsets } {
  const attack = ATTACKS[family];
  const shape = spectrumShapeAt(form.rate);
  const { rate } = shape;
  const mono = monoOf(form);
  const samples = history(Math.ceil(REMEMBERED * rate));
  const frames = framesOf(shape, samples);
  const seeker = seekerOf(shape, attack);
  const envelopes = envelopesOf(rate, attack);
  const notes = notesOf(attack);
  const waiting: Peak[] = [];
  const middleOf = (frame: number): number => Math.round(frame * shape.hop);
  // An attack is followed so far beyond its peak.
  const ahead = Math.ceil((LATE + 2 * attack.rise + attack.window) * rate);
  const hear = (magnitudes: Float32Array, frame: number): void => {
    masking?.({ seconds: middleOf(frame) / rate, magnitudes });
    waiting.push(...seeker.seek(magnitudes));
  };
  const time = (): readonly HeardOnset[] => {
    const fresh: HeardOnset[] = [];
    while (waiting.length > 0 && middleOf(waiting[0]!.frame) + ahead <= samples.length()) {
      const { frame, strength } = waiting.shift()!;
      const rise = riseOf(envelopes(samples, middleOf(frame)), { middle: middleOf(frame), rate, attack });
      fresh.push(...notes.add(rise, { strength, rate }));
    }
    return fresh;
  };
  const listen = (heard: Float32Array): readonly HeardOnset[] => {
    const fresh: HeardOnset[] = [];
    for (let from = 0; from < heard.length; from += PIECE) {
      samples.push(heard.subarray(from, from + PIECE));
      frames.advance(hear);
      fresh.push(...time());
    }
    return fresh;
  };
  return {
    push: (channels) => listen(mono.push(channels)),
    finish: () => {
      listen(mono.finish());
      const seconds = samples.length() / rate;
      listen(new Float32Array(Math.ceil(AFTERMATH * rate)));
      waiting.push(...seeker.finish());
      time();
      return notes.finish(seconds);
    },
  };
}
