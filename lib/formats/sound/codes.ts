import { problemsOf } from "../../base/index.js";

/** Problems with a file as a recording. */
export const recordingCodes = {
  RECORDING_EMPTY: "error",
  RECORDING_FORMAT_UNKNOWN: "error",
  RECORDING_NAMED_WRONGLY: "advice",
  RECORDING_HEADER_BROKEN: "error",
  RECORDING_DECODER_MISSING: "error",
  RECORDING_DECODER_FAILED: "error",
  RECORDING_READ_FAILED: "error",
  RECORDING_WITHOUT_SOUND: "error",
  RECORDING_TOO_LONG: "error",
  RECORDING_CUT_SHORT: "advice",
  RECORDING_DAMAGED: "advice",
  RECORDING_TIMES_LOST: "error",
  RECORDING_START_UNSTATED: "advice",
  RECORDING_NOT_NUMBERS: "advice",
  RECORDING_SILENT: "advice",
  RECORDING_QUIET: "advice",
  RECORDING_CLIPPED: "advice",
  RECORDING_OFF_CENTRE: "advice",
} as const;

/** Makes a problem of this catalogue. */
export const problem: ReturnType<typeof problemsOf<typeof recordingCodes>> = problemsOf(recordingCodes);
