import type { RecordedSound } from "./model.js";
import { steepestRise } from "./steepestRise.js";

/** Seconds of an attack that are laid over, before the stroke and after, and over which they come in and go out. Our choices, measured on drums: less leaves some of the smear, more doubles what rings. */
const BEFORE = 0.004;
const AFTER = 0.035;
const COMES_IN = 0.002;
const GOES_OUT = 0.02;

/**
 * Lays the attacks of a sound over what a stretcher made of it, which smears them: each at its stroke, made neither slower nor faster. Between strokes, and where they ring, the stretched
 * sound is left as it is.
 *
 * `strokes`: seconds of the original at which strokes begin, in order.
 */
export function attacksLaidOver(
  stretched: RecordedSound,
  original: RecordedSound,
  { strokes, speed }: { readonly strokes: readonly number[]; readonly speed: number },
): RecordedSound {
  const { rate } = original;
  const [before, comesIn, goesOut] = [BEFORE, COMES_IN, GOES_OUT].map((seconds) => Math.round(seconds * rate)) as [
    number,
    number,
    number,
  ];
  const channels = stretched.channels.map((samples) => samples.slice());
  for (const [i, stroke] of strokes.entries()) {
    const from = Math.round(stroke * rate);
    const rise = steepestRise(original, stroke);
    // An attack is as long as it was: where it rises most, it lies at its place.
    const place = Math.round((rise / speed - rise + stroke) * rate);
    // No attack reaches into the next one, in either sound.
    const apart = ((strokes[i + 1] ?? Number.POSITIVE_INFINITY) - stroke) * Math.min(1, 1 / speed);
    const last = Math.round(Math.min(AFTER, Math.max(0, apart - BEFORE)) * rate);
    const out = Math.min(goesOut, last);
    for (let k = -before; k < last; k++) {
      const comes = Math.min(1, (k + before + 0.5) / comesIn);
      const goes = Math.min(1, (last - k - 0.5) / out);
      const share = Math.sin((Math.PI / 2) * Math.min(comes, goes)) ** 2;
      for (const [c, target] of channels.entries()) {
        const sample = original.channels[c]![from + k] ?? 0;
        const at = place + k;
        if (at >= 0 && at < target.length) target[at] = share * sample + (1 - share) * target[at]!;
      }
    }
  }
  return { rate, channels: [channels[0]!, channels[1]!] };
}
