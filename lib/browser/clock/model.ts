/** What is known of how long sound takes from the clock of the context to the ear, `seconds` late. */
export type OutputLatency =
  | { readonly known: true; readonly seconds: number }
  /** The browser does not say, or says nothing believable: calibrate; until then it is a part of the constant that is estimated. */
  | { readonly known: false };

/**
 * One clock for sound, cursor and input: the clock of the audio context, in seconds, of what is heard. A time of this clock stands for a sound;
 * a time of `performance.now()`, in milliseconds, for a moment.
 */
export interface SoundClock {
  /** Which second of the context is heard at this moment; now when left out. Goes on smoothly, and stands still while the context does. */
  heardAt(moment?: number): number;
  /** At which moment a second of the context is heard, if nothing stops the context. */
  momentOf(seconds: number): number;
  readonly outputLatency: OutputLatency;
}
