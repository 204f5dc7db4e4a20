/** Seconds in which what still rings fades when its part falls silent: our choice, short beside any note and long enough not to crackle. */
export const FADE = 0.008;
/** Seconds in which the file ends. */
const ENDING = 0.3;

/** How much is left, 1 to 0, `step` of `steps` into a fade; half a cosine. */
export function faded(step: number, steps: number): number {
  return step >= steps ? 0 : 0.5 + 0.5 * Math.cos((Math.PI * (step + 1)) / (steps + 1));
}

/** Lets the end of a file fade in place. */
export function fadeOut(channels: readonly Float32Array[], rate: number): void {
  const steps = Math.round(ENDING * rate);
  for (const channel of channels) {
    const start = channel.length - steps;
    for (let i = Math.max(0, start); i < channel.length; i++) channel[i]! *= faded(i - start, steps - 1);
  }
}
