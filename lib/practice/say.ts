import { english, practiceProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with what is asked for in English, with the message beside each. */
export const sayProblem: Speaker<"practice-problem"> = /* @__PURE__ */ speakerOf(english, practiceProblemInEnglish);
