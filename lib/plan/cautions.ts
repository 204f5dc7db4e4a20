/** Minutes of playing after which a rest is planned, and how long it is: common advice (25 to 30 minutes, then 5), of no medical body. */
export const PLAYING_MINUTES = 25;
export const REST_MINUTES = 5;

/** What goes with every plan. */
export const CAUTIONS: readonly string[] = [
  "Keep the playback no louder than you need to hear it beside your instrument; protect your hearing in small rooms.",
  "Stop when anything hurts, and rest lips, hands and back between takes; pain that stays is for a doctor.",
  "What your school, your teacher and local rules say about breaks and loudness comes before this plan.",
];

/** Said of plans with rests. */
export const REST_BECAUSE = "five minutes off after about 25 of playing is common advice";

/** Said of plans that mix. */
export const MIXING_REMARK =
  "The drills take turns because that was asked for: in studies of applied settings taking turns helped little or not at all (Czyż et al. 2024).";
