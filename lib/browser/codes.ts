import { type Problem, problemsOf } from "../base/index.js";

/** What stands in the way of hearing and playing in a browser. `error`: it cannot go on like this; `advice`: it can, and should be known. */
export const browserCodes = {
  SOUND_NOT_ALLOWED: { severity: "error", means: "The browser keeps sound back until somebody presses something." },
  SOUND_SUSPENDED: { severity: "error", means: "The device stopped the sound, for instance for a call." },
  CLOCK_STOPPED: { severity: "error", means: "The clock of the sound stood still, so the take cannot be timed." },
  BAND_LATE: { severity: "advice", means: "Notes of the band were left out because the page was busy for too long." },
  SOUND_BROKEN_UP: { severity: "advice", means: "The device reported that sound was not ready in time." },
  OUTPUT_LATENCY_UNKNOWN: { severity: "advice", means: "The browser does not say how late its sound is heard." },
  OUTPUT_LATE: { severity: "advice", means: "Sound is heard so late that the ear-pieces are probably wireless." },
  DEVICE_CHANGED: { severity: "error", means: "The device that plays or records became another one." },
  RATE_CHANGED: { severity: "error", means: "A device changed its sample rate in the middle of a take." },
  TAB_HIDDEN: { severity: "error", means: "The page went into the background in the middle of a take." },
  MICROPHONE_REFUSED: {
    severity: "error",
    means: "The person or the browser does not let the page use the microphone.",
  },
  MICROPHONE_MISSING: { severity: "error", means: "No microphone, or none of that name, is plugged in." },
  MICROPHONE_BUSY: { severity: "error", means: "The microphone does not open; another program may be using it." },
  MICROPHONE_NOT_HERE: { severity: "error", means: "The page is not served over HTTPS, so there is no microphone." },
  MICROPHONE_ENDED: { severity: "error", means: "The microphone was unplugged, or its use was taken back." },
  MICROPHONE_ALTERED: {
    severity: "advice",
    means: "The browser cancels echo, suppresses noise or controls gain although it was asked not to.",
  },
  WORKLET_NOT_LOADED: { severity: "error", means: "The file that records was not served, or was not allowed." },
  SOUND_LOST: { severity: "advice", means: "Sound of the microphone was lost; silence stands in its place." },
  MIDI_REFUSED: { severity: "error", means: "The person or the browser does not let the page use MIDI." },
  MIDI_NOT_HERE: { severity: "error", means: "The browser has no Web MIDI." },
  MIDI_WITHOUT_DEVICE: { severity: "advice", means: "No MIDI device is plugged in yet." },
  TAKE_BROKEN_OFF: { severity: "error", means: "The take was broken off before its end." },
  LATENCY_STOPPED: { severity: "error", means: "The measurement of a latency was stopped." },
  LISTENING_FAILED: { severity: "error", means: "What listens to the take failed." },
} as const;

/** The code of a problem in a browser. */
export type BrowserCode = keyof typeof browserCodes;

/** Makes a problem; `BrowserProblem` is what it makes. */
export const browserProblem: ReturnType<typeof problemsOf<typeof browserCodes>> = problemsOf(browserCodes);
export type BrowserProblem = Problem<BrowserCode>;
