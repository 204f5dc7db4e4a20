import { english, type Speaker, speakerOf, storeInEnglish, storeProblemInEnglish } from "../words/index.js";

/** Words problems with stores in English, with the message beside each. */
export const sayProblem: Speaker<"store-problem"> = /* @__PURE__ */ speakerOf(english, storeProblemInEnglish);

/** The same of what a store has to say besides. */
export const say: Speaker<"store"> = /* @__PURE__ */ speakerOf(english, storeInEnglish);
