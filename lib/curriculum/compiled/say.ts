import { compiledProblemInEnglish, english, type Speaker, speakerOf } from "../../words/index.js";

/** Words problems with courses that were compiled ahead in English, with the message beside each. */
export const say: Speaker<"compiled-problem"> = /* @__PURE__ */ speakerOf(english, compiledProblemInEnglish);
