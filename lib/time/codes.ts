import { type Place, type Problem, problemsOf, type Worded } from "../base/index.js";

/** Problems with meters, lengths, tempi and swings. */
export const timeCodes = {
  METER_NOT_READ: { severity: "error", means: "A meter is not written as 4/4, 12/8 or 2+2+3/8." },
  METER_LOWER_NOT_POWER_OF_TWO: {
    severity: "error",
    means: "The lower number of a meter names no note value (1, 2, 4, 8, 16, 32, 64).",
  },
  METER_UPPER_OUT_OF_RANGE: { severity: "error", means: "The upper number of a meter is 0 or too large." },
  SPAN_NOT_READ: { severity: "error", means: "A length is not written as a number and a unit." },
  SPAN_UNIT_UNKNOWN: { severity: "error", means: "The unit of a length is not bars, beats or a note value." },
  SPAN_NOT_POSITIVE: { severity: "error", means: "A length is 0 or negative." },
  SPAN_TOO_LONG: { severity: "error", means: "A length is beyond any piece of music." },
  TEMPO_NOT_READ: { severity: "error", means: "A tempo is not written as 96 or 60 of 3/8." },
  TEMPO_OUT_OF_RANGE: { severity: "error", means: "A tempo is not between 1 and 1000 beats per minute." },
  BEAT_UNIT_NOT_READ: { severity: "error", means: "The beat unit of a tempo is not a note value, plain or dotted." },
  SWING_NOT_READ: { severity: "error", means: "A swing is not written as a ratio and a note value." },
  SWING_RATIO_OUT_OF_RANGE: { severity: "error", means: "A swing ratio is 0 or too uneven to be played." },
  BEAT_SLOWER_THAN_SYNCHRONISATION: {
    severity: "advice",
    means: "Beats are so far apart that people no longer keep time with them.",
  },
  SUBDIVISION_FASTER_THAN_SYNCHRONISATION: {
    severity: "advice",
    means: "Notes follow each other faster than people can keep time with.",
  },
} as const;

/** Makes a problem of this catalogue. */
export const problem: (code: keyof typeof timeCodes, message: Worded, where?: Place, remedy?: Worded) => Problem =
  problemsOf(timeCodes);
