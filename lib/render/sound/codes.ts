import { problemsOf } from "../../base/index.js";

/** Problems of rendering sound. */
export const soundCodes = {
  SOUND_TOO_LONG: "error",
  SOUND_BANK_NOT_READ: "error",
  SYNTHESISER_MISSING: "error",
  SOUND_BANK_WITHOUT_INSTRUMENT: "advice",
  TOO_MANY_SOUND_FILES: "error",
  RECORDED_PART_NOT_GIVEN: "error",
} as const;

export const soundProblem: ReturnType<typeof problemsOf<typeof soundCodes>> = problemsOf(soundCodes);
