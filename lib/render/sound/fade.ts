/** Fade-out time of a sound that still rings when its part falls silent, in seconds: our choice, much shorter than any note and long enough not to click. */
export const FADE = 0.008;
/** Fade-out time at the end of the file, in seconds; our choice. */
const ENDING = 0.3;

/** Gain of a fade-out at `step` of `steps`, 1 to 0; half a cosine. */
export function faded(step: number, steps: number): number {
  return step >= steps ? 0 : 0.5 + 0.5 * Math.cos((Math.PI * (step + 1)) / (steps + 1));
}

/** Fades out the end of a file, in place. */
export function fadeOut(channels: readonly Float32Array[], rate: number): void {
  const steps = Math.round(ENDING * rate);
  for (const channel of channels) {
    const start = channel.length - steps;
    for (let i = Math.max(0, start); i < channel.length; i++) channel[i]! *= faded(i - start, steps - 1);
  }
}
