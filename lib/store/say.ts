import { english, type Speaker, speakerOf, storeProblemInEnglish } from "../words/index.js";

/** Words problems with stores in English, with the message beside each. */
export const sayProblem: Speaker<"store-problem"> = /* @__PURE__ */ speakerOf(english, storeProblemInEnglish);
