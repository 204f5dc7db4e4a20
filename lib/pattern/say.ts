import { english, patternProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with patterns in English, with the message beside each. */
export const say: Speaker<"pattern-problem"> = /* @__PURE__ */ speakerOf(english, patternProblemInEnglish);
