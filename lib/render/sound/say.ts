import { english, type Speaker, soundProblemInEnglish, speakerOf } from "../../words/index.js";

/** Words problems of rendering sound in English, with the message beside each. */
export const sayProblem: Speaker<"sound-problem"> = /* @__PURE__ */ speakerOf(english, soundProblemInEnglish);
