import { type Place, type Problem, problemsOf, type Worded } from "../../base/index.js";

/** Problems with a file as a recording. */
export const recordingCodes = {
  RECORDING_EMPTY: { severity: "error", means: "The file has no bytes." },
  RECORDING_FORMAT_UNKNOWN: { severity: "error", means: "The bytes are of no kind of sound file known here." },
  RECORDING_NAMED_WRONGLY: {
    severity: "advice",
    means: "The file's name ends as that of another kind of sound file; what is inside counts.",
  },
  RECORDING_HEADER_BROKEN: {
    severity: "error",
    means:
      "The beginning of a sound file states what cannot be: no channels, no rate, sizes that contradict each other.",
  },
  RECORDING_DECODER_MISSING: {
    severity: "error",
    means: "A sound file of a kind that needs a decoder which is not installed here.",
  },
  RECORDING_DECODER_FAILED: { severity: "error", means: "The decoder gave up: the sound file is broken or protected." },
  RECORDING_READ_FAILED: { severity: "error", means: "Reading the recording broke off." },
  RECORDING_WITHOUT_SOUND: { severity: "error", means: "The sound file holds no sound at all." },
  RECORDING_TOO_LONG: { severity: "error", means: "The recording is longer than any take." },
  RECORDING_CUT_SHORT: {
    severity: "advice",
    means: "The sound file ends before it says it does; what is there is listened to.",
  },
  RECORDING_DAMAGED: {
    severity: "advice",
    means: "Stretches of the sound file cannot be decoded and count as silence; the times around them stand.",
  },
  RECORDING_TIMES_LOST: {
    severity: "error",
    means: "Sound is missing in the middle of the file, nobody can say where, so its times cannot be trusted.",
  },
  RECORDING_START_UNSTATED: {
    severity: "advice",
    means:
      "The sound file does not say how much silence its encoder put before the sound; the usual amount is assumed.",
  },
  RECORDING_NOT_NUMBERS: {
    severity: "advice",
    means: "Samples that are no numbers, or beyond any loudness, count as silence.",
  },
  RECORDING_SILENT: { severity: "advice", means: "Nothing is to be heard in the recording." },
  RECORDING_QUIET: { severity: "advice", means: "The recording is so quiet that soft notes may be lost in noise." },
  RECORDING_CLIPPED: {
    severity: "advice",
    means: "The recording was too loud for its device: the tops of its waves are cut off.",
  },
  RECORDING_OFF_CENTRE: {
    severity: "advice",
    means: "The waves of the recording do not swing about zero, as when a microphone input is faulty.",
  },
} as const;

/** Makes a problem of this catalogue. */
export const problem: (code: keyof typeof recordingCodes, message: Worded, where?: Place, remedy?: Worded) => Problem =
  problemsOf(recordingCodes);
