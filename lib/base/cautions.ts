/**
 * The cautions wherever something sounds or asks for many takes: one wording, about loudness, strain, and whose word comes first. What they ask is
 * common advice, of no medical body; they defer to doctors, the school, the teacher and local rules.
 */
export const CAUTIONS: readonly string[] = [
  "Keep the playback no louder than you need beside your instrument, and protect your hearing.",
  "Rest between takes, and stop when anything hurts; pain or ringing ears that stay are for a doctor.",
  "What your school, your teacher and local rules say about loudness and breaks comes first.",
];

/** The cautions in one paragraph. */
export const CAUTION: string = CAUTIONS.join(" ");

/** Said of the clicks that measure a device, wherever they are written: they harm hearing before they seem loud. */
export const CLICK_CAUTION =
  "Before you play the clicks: turn the volume down and take headphones off your ears, then turn it up as far as needed.";
