/**
 * A landing is judged by the first note that is expected less than so many beats after the return, and before the next silence. Our choice: four beats
 * are a bar of common time, and the note on the next downbeat is no landing.
 */
export const LANDING_WITHIN_BEATS = 4;
