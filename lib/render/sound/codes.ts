import { problemsOf } from "../../base/index.js";

/** Problems of rendering sound. */
export const soundCodes = {
  SOUND_TOO_LONG: { severity: "error", means: "A take lasts longer than a sound file is made for." },
  SOUND_BANK_NOT_READ: {
    severity: "error",
    means: "The bytes given as a sound bank are no SF2, SF3 or DLS bank, or not all of one.",
  },
  SYNTHESISER_MISSING: {
    severity: "error",
    means: "The package that plays sound banks is not installed.",
  },
  SOUND_BANK_WITHOUT_INSTRUMENT: {
    severity: "advice",
    means: "The sound bank lacks an instrument, and one it has is heard instead.",
  },
  RECORDED_PART_NOT_GIVEN: {
    severity: "error",
    means: "A score plays a recording that was not given to what renders it.",
  },
  TOO_MANY_SOUND_FILES: { severity: "error", means: "A drill has more rungs and mixes than are rendered at once." },
} as const;

export const soundProblem: ReturnType<typeof problemsOf<typeof soundCodes>> = problemsOf(soundCodes);
