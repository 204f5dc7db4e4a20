import { english, keyProblemInEnglish, pitchProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

// Apart from `say`, so that who transposes what was read carries no sentence on how to write it.

/** Words problems with keys and scales in English, with the message beside each. */
export const sayOfKey: Speaker<"key-problem"> = /* @__PURE__ */ speakerOf(english, keyProblemInEnglish);

/** The same for problems with pitches. */
export const sayOfPitch: Speaker<"pitch-problem"> = /* @__PURE__ */ speakerOf(english, pitchProblemInEnglish);
