/** Minutes of playing after which a rest is planned, and how long it is: common advice (25 to 30 minutes, then 5), of no medical body. */
export const PLAYING_MINUTES = 25;
export const REST_MINUTES = 5;

/** Seconds between takes: to breathe, read what was found and count in again. Our choice. */
export const PAUSE_SECONDS = 20;

/** Whole seconds that a take of so many seconds (count-in included) needs in a plan, with the pause after it. */
export function slotSeconds(seconds: number): number {
  return Math.ceil(seconds + PAUSE_SECONDS);
}
