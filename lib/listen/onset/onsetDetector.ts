import { ATTACKS } from "../families.js";
import { halfBandDecimator } from "../signal/decimator.js";
import { monoSignal } from "../signal/monoSignal.js";
import { shortTimeSpectra } from "../signal/shortTimeSpectra.js";
import { slidingBuffer } from "../signal/slidingBuffer.js";
import { spectrumShapeAt } from "../signal/spectrumShape.js";
import { attackEnvelopes, LATE } from "./attackEnvelope.js";
import { attackTime } from "./attackTime.js";
import { fluxPeaks } from "./fluxPeaks.js";
import type { HeardOnset, HeardOnsets, ListeningOptions } from "./heardOnset.js";
import { onsetList } from "./onsetList.js";
import type { Peak } from "./peakPicking.js";

/** Samples that are remembered, seconds: a peak is known only after it, and its attack reaches back from there (our choice, ample). */
const REMEMBERED = 1;
/** Samples that are worked on at a time, so that what is remembered suffices. */
const PIECE = 4096;
/** Silence after the end so that the last notes are known, seconds. */
const AFTERMATH = 0.4;

/** Onset detection from samples: mix-down, high pass, spectral flux, peak picking, and for each peak the time of its attack. */
export function onsetDetector(
  form: { rate: number; count: number },
  { family, masking }: ListeningOptions,
): { push: (channels: readonly Float32Array[]) => readonly HeardOnset[]; finish: () => HeardOnsets } {
  const attack = ATTACKS[family];
  const shape = spectrumShapeAt(form.rate);
  const { rate } = shape;
  const mono = monoSignal(form, halfBandDecimator);
  const samples = slidingBuffer(Math.ceil(REMEMBERED * rate));
  const frames = shortTimeSpectra(shape, samples);
  const peaks = fluxPeaks(shape, attack);
  const envelopes = attackEnvelopes(rate, attack);
  const notes = onsetList(attack);
  const waiting: Peak[] = [];
  const middleOf = (frame: number): number => Math.round(frame * shape.hop);
  // Samples after a peak that its attack envelope needs.
  const ahead = Math.ceil((LATE + 2 * attack.rise + attack.window) * rate);
  const hear = (magnitudes: Float32Array, frame: number): void => {
    masking?.({ seconds: middleOf(frame) / rate, magnitudes });
    waiting.push(...peaks.push(magnitudes));
  };
  const time = (): readonly HeardOnset[] => {
    const fresh: HeardOnset[] = [];
    while (waiting.length > 0 && middleOf(waiting[0]!.frame) + ahead <= samples.length()) {
      const { frame, strength } = waiting.shift()!;
      const rise = attackTime(envelopes(samples, middleOf(frame)), { middle: middleOf(frame), rate, attack });
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
    push: (channels) => listen(mono.push(channels).samples),
    finish: () => {
      listen(mono.finish().samples);
      const seconds = samples.length() / rate;
      listen(new Float32Array(Math.ceil(AFTERMATH * rate)));
      waiting.push(...peaks.finish());
      time();
      return notes.finish(seconds);
    },
  };
}
