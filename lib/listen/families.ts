/** How an instrument's notes begin: struck, plucked or hammered strings, breath, bow. */
export type InstrumentFamily = "percussive" | "plucked" | "blown" | "bowed";

/** Ways in which notes begin, which decide how they are found. */
export const INSTRUMENT_FAMILIES: readonly InstrumentFamily[] = ["percussive", "plucked", "blown", "bowed"];

/** The family when nothing is known of the instrument; our choice: its attacks lie between those that are struck and those that are blown. */
export const ASSUMED_FAMILY: InstrumentFamily = "plucked";

/** What is known of the way notes of a family begin. */
export interface Attack {
  /** What the flux must rise above its mean, decades summed over bands (Boeck & Widmer 2013: 1.1). */
  readonly threshold: number;
  /** How much of a rise must still be there after how long, decades summed over bands and seconds: the click of a note that ends is gone by then. */
  readonly lasting: { readonly rise: number; readonly after: number };
  /** Two onsets are not nearer than this, seconds (Boeck & Widmer 2013: 0.03). */
  readonly apart: number;
  /** Length of the windows the attack is looked at through, seconds. */
  readonly window: number;
  /** Steps from window to window, seconds. */
  readonly step: number;
  /** How long before the peak of the flux a note may have begun, seconds. */
  readonly early: number;
  /** How long a rise is at most, seconds. */
  readonly rise: number;
  /** The rise is timed from the first to the second of these shares of its height. */
  readonly shares: readonly [number, number];
  /** The note began before the first share was reached: by so many times the time from the first to the second. */
  readonly foot: number;
  /** How late the time so found is on average, seconds. */
  readonly bias: number;
  /** Standard deviation of that time, ms, for a note that only just counts, and the power of its strength by which it falls. */
  readonly noise: { readonly ms: number; readonly falls: number };
}

/** Notes that speak slowly, on breath or bow. */
const SPOKEN: Attack = {
  threshold: 0.8,
  lasting: { rise: 2, after: 0.05 },
  apart: 0.07,
  window: 1024 / 44100,
  step: 0.003,
  early: 0.07,
  rise: 0.02,
  shares: [0.1, 0.4],
  foot: 0.2,
  bias: -0.004,
  noise: { ms: 17, falls: 0.6 },
};

/**
 * Attacks by family. Thresholds start from the published ones; windows, rises and shares are our choice on takes played by two General MIDI
 * banks, and the biases and noises are the medians and deviations of their errors there (`npm run bench -- listening` prints what is left).
 *
 * Notes begin where they reach a tenth of their peak: a reed that speaks slowly is still heard 2 ms late and a trumpet as early, as one
 * bias serves a family. Bowed strings are listened to as winds are; what they play legato begins with little that is new, and a quarter
 * of their notes is not heard.
 */
export const ATTACKS: Readonly<Record<InstrumentFamily, Attack>> = {
  percussive: {
    threshold: 1.8,
    lasting: { rise: 2, after: 0.02 },
    apart: 0.03,
    window: 512 / 44100,
    step: 0.001,
    early: 0.03,
    rise: 0.01,
    shares: [0.15, 0.5],
    foot: 0.43,
    bias: -0.0034,
    noise: { ms: 0.5, falls: 0 },
  },
  plucked: {
    threshold: 0.8,
    lasting: { rise: 1, after: 0.05 },
    apart: 0.05,
    window: 1024 / 44100,
    step: 0.003,
    early: 0.05,
    rise: 0.03,
    shares: [0.1, 0.4],
    foot: 0.33,
    bias: -0.0056,
    noise: { ms: 15, falls: 0.8 },
  },
  blown: SPOKEN,
  bowed: { ...SPOKEN, bias: -0.007, noise: { ms: 20, falls: 0.6 } },
};
