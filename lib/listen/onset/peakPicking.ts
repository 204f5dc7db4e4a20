import type { Attack } from "../families.js";
import type { SpectrumShape } from "../signal/spectrumShape.js";
import type { SpectralFlux } from "./spectralFlux.js";

/** How far back a spectrum is compared, seconds: the window has fallen to half there (Boeck & Widmer 2013: ratio 0.5 of 2048 samples). */
const LAG = 512 / 44100;
/** A peak is the highest from so long before to so long after, and stands above the mean from so long before, seconds (Boeck & Widmer 2013). */
const HIGHEST = { before: 0.01, after: 0.05 };
const MEAN = 0.15;

/** A frame in which a note may have begun. */
export interface Peak {
  /** Number of the frame, from 0. */
  readonly frame: number;
  /** The flux above its mean, in thresholds. */
  readonly strength: number;
}

/** Frames after a peak that must have been seen before it is known. */
function framesToKnow({ rate, hop }: Pick<SpectrumShape, "rate" | "hop">): number {
  return Math.ceil((HIGHEST.after * rate) / hop);
}

/** Finds peaks of the flux: ask once after every frame that was pushed. */
export function peakPicker({ rate, hop }: SpectrumShape, flux: SpectralFlux, attack: Attack): () => Peak | undefined {
  const frames = (seconds: number): number => Math.max(1, Math.round((seconds * rate) / hop));
  const lag = frames(LAG);
  const [back, ahead, meanOver, lasting] = [HIGHEST.before, HIGHEST.after, MEAN, attack.lasting.after].map(frames) as [
    number,
    number,
    number,
    number,
  ];
  const wait = framesToKnow({ rate, hop });
  const kept = meanOver + wait + 1;
  const course = new Float64Array(kept);
  let count = 0;
  const value = (frame: number): number => (frame < 0 ? 0 : course[frame % kept]!);
  return () => {
    course[count % kept] = flux.rise(0, lag);
    count++;
    const frame = count - 1 - wait;
    const height = value(frame);
    if (frame < 0 || height === 0) return undefined;
    for (let i = 1; i <= back; i++) if (value(frame - i) >= height) return undefined;
    for (let i = 1; i <= ahead; i++) if (value(frame + i) > height) return undefined;
    let sum = 0;
    // Capped, a departure from the published mean: a loud note just before must not hide a soft one.
    for (let i = 0; i <= meanOver; i++) sum += Math.min(height, value(frame - i));
    const strength = (height - sum / (meanOver + 1)) / attack.threshold;
    if (strength < 1) return undefined;
    if (flux.rise(wait - lasting, wait + lag + 1) < attack.lasting.rise) return undefined;
    return { frame, strength };
  };
}
