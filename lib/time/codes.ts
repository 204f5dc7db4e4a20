import { problemsOf } from "../base/index.js";

/** Problems with meters, lengths, tempi and swings. */
export const timeCodes = {
  METER_NOT_READ: "error",
  METER_LOWER_NOT_POWER_OF_TWO: "error",
  METER_UPPER_OUT_OF_RANGE: "error",
  SPAN_NOT_READ: "error",
  SPAN_UNIT_UNKNOWN: "error",
  SPAN_NOT_POSITIVE: "error",
  SPAN_TOO_LONG: "error",
  TEMPO_NOT_READ: "error",
  TEMPO_OUT_OF_RANGE: "error",
  BEAT_UNIT_NOT_READ: "error",
  SWING_NOT_READ: "error",
  SWING_RATIO_OUT_OF_RANGE: "error",
  BEAT_SLOWER_THAN_SYNCHRONISATION: "advice",
  SUBDIVISION_FASTER_THAN_SYNCHRONISATION: "advice",
} as const;

/** Makes a problem of this catalogue. */
export const problem: ReturnType<typeof problemsOf<typeof timeCodes>> = problemsOf(timeCodes);
