/** Seconds between takes: to breathe, read what was found and count in again. Our choice. */
export const PAUSE_SECONDS = 20;

/** Whole seconds one take needs in a plan, count-in and the pause after it included. */
export function slotSeconds(seconds: number): number {
  return Math.ceil(seconds + PAUSE_SECONDS);
}
