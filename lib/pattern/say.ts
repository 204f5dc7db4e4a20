import {
  english,
  keyProblemInEnglish,
  patternProblemInEnglish,
  pitchProblemInEnglish,
  type Speaker,
  speakerOf,
} from "../words/index.js";

/** Words problems with patterns in English, with the message beside each. */
export const say: Speaker<"pattern-problem"> = /* @__PURE__ */ speakerOf(english, patternProblemInEnglish);

/** The same for problems with keys and scales. */
export const sayOfKey: Speaker<"key-problem"> = /* @__PURE__ */ speakerOf(english, keyProblemInEnglish);

/** The same for problems with pitches. */
export const sayOfPitch: Speaker<"pitch-problem"> = /* @__PURE__ */ speakerOf(english, pitchProblemInEnglish);
