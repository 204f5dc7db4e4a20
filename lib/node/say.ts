import { english, nodeProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with files and threads in English, with the message beside each. */
export const sayProblem: Speaker<"node-problem"> = /* @__PURE__ */ speakerOf(english, nodeProblemInEnglish);
