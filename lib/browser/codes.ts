import { type Problem, problemsOf } from "../base/index.js";

/** What stands in the way of hearing and playing in a browser. `error`: it cannot go on like this; `advice`: it can, and should be known. */
export const browserCodes = {
  SOUND_NOT_ALLOWED: "error",
  RECORDING_NOT_HERE: "error",
  SOUND_SUSPENDED: "error",
  CLOCK_STOPPED: "error",
  BAND_LATE: "advice",
  SOUND_BROKEN_UP: "advice",
  OUTPUT_LATENCY_UNKNOWN: "advice",
  OUTPUT_LATE: "advice",
  DEVICE_CHANGED: "error",
  RATE_CHANGED: "error",
  TAB_HIDDEN: "error",
  MICROPHONE_REFUSED: "error",
  MICROPHONE_MISSING: "error",
  MICROPHONE_BUSY: "error",
  MICROPHONE_NOT_HERE: "error",
  MICROPHONE_ENDED: "error",
  MICROPHONE_ALTERED: "advice",
  WORKLET_NOT_LOADED: "error",
  SOUND_LOST: "advice",
  MIDI_REFUSED: "error",
  MIDI_NOT_HERE: "error",
  MIDI_WITHOUT_DEVICE: "advice",
  TAKE_BROKEN_OFF: "error",
  LATENCY_STOPPED: "error",
  LISTENING_FAILED: "error",
} as const;

/** The code of a problem in a browser. */
export type BrowserCode = keyof typeof browserCodes;

/** Makes a problem; `BrowserProblem` is what it makes. */
export const browserProblem: ReturnType<typeof problemsOf<typeof browserCodes>> = problemsOf(browserCodes);
export type BrowserProblem = Problem<BrowserCode>;
