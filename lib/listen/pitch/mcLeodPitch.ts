import { PitchDetector } from "pitchy";
import { realFft } from "../signal/realFft.js";
import { spectralSubtraction } from "./spectralSubtraction.js";

/** Windows, seconds: the longest of the usual ones that fits is taken; the long one where that says nothing, as for the lowest notes of a bass. */
const USUAL = [0.093, 0.0465, 0.0233] as const;
const LONG = 0.186;
/** Where a turn is shorter than this many samples, it is looked at more finely: a peak is placed to a fraction of a sample only. Our choice. */
const FINE_BELOW = 24;
/** Parts of a note that are asked; our choice. */
const MOST_ASKED = 5;
/** What the method calls clear; our choice, below the published 0.9 to 1 for tones alone, because rooms and hiss blur them. */
const CLEAR = 0.85;
/** Answers that agree lie within this many semitones of each other. */
const AGREE = 0.5;
/** Of the parts asked, so many must give the pitch; our choice: absent rather than wrong. */
const LEAST_SHARE = 0.5;
/** Concert A and its MIDI note number (ISO 16). */
const A4 = { hertz: 440, key: 69 } as const;
/** Notes from the lowest to the highest key of a piano, with some room. */
const KEYS = { from: 20.5, to: 108.5 } as const;

/**
 * The pitch of a stretch of samples in which one note sounds, by McLeod's method (McLeod & Wyvill 2005) on several windows of it, each
 * without what rang `before` it began: the pitch that most of the clear ones agree on, as a MIDI note number to the hundredth.
 */
export function mcLeodPitch(rate: number): (samples: Float64Array, before: Float64Array) => number | undefined {
  const methodOf = (seconds: number) => {
    const size = 2 ** Math.round(Math.log2(seconds * rate));
    return {
      size,
      detector: PitchDetector.forFloat64Array(size),
      newPart: spectralSubtraction(size),
      finer: upsampledStart(size),
    };
  };
  const usual = USUAL.map(methodOf);
  const long = methodOf(LONG);
  return (samples, before) => {
    const fits = ({ size }: { size: number }): boolean => size <= Math.min(samples.length, before.length);
    const first = usual.find(fits);
    const found = first && answer(first, samples, before);
    return found === undefined && fits(long) ? answer(long, samples, before) : found;
  };
  function answer(
    { size, detector, newPart, finer }: ReturnType<typeof methodOf>,
    samples: Float64Array,
    before: Float64Array,
  ): number | undefined {
    const fresh = newPart(before.subarray(before.length - size));
    const asked = Math.min(MOST_ASKED, 1 + Math.floor((4 * (samples.length - size)) / size));
    const answers: number[] = [];
    for (let i = 0; i < asked; i++) {
      const from = asked === 1 ? 0 : Math.round((i * (samples.length - size)) / (asked - 1));
      const part = fresh(samples.subarray(from, from + size));
      let [hertz, clarity] = detector.findPitch(part, rate);
      if (hertz > rate / FINE_BELOW) [hertz, clarity] = detector.findPitch(finer(part), FINER * rate);
      const key = A4.key + 12 * Math.log2(hertz / A4.hertz);
      // Less than two turns in a window say nothing about a turn.
      if (clarity >= CLEAR && key > KEYS.from && key < KEYS.to && hertz > (2 * rate) / size) answers.push(key);
      const found = agreed(answers, asked);
      if (found !== undefined) return found;
    }
    return undefined;
  }
}

function agreed(answers: readonly number[], asked: number): number | undefined {
  let best: readonly number[] = [];
  for (const answer of answers) {
    const near = answers.filter((other) => Math.abs(other - answer) <= AGREE);
    if (near.length > best.length) best = near;
  }
  if (best.length === 0 || best.length < LEAST_SHARE * asked) return undefined;
  const sorted = [...best].sort((a, b) => a - b);
  return Math.round(100 * sorted[sorted.length >> 1]!) / 100;
}

/** Factor of upsampling. */
const FINER = 4;

/** Upsamples the first quarter of a window of `size` samples by four (zero padding of its spectrum), to `size` samples. */
function upsampledStart(size: number): (window: Float64Array) => Float64Array {
  const short = realFft(size / FINER);
  const long = realFft(size);
  return (window) => {
    const spectrum = short.forward(window.subarray(0, size / FINER));
    const wide = new Float64Array(size + 2);
    for (let k = 0; k < size / FINER; k++) wide[k] = FINER * spectrum[k]!;
    return long.inverse(wide);
  };
}
