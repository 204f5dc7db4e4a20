import { editionProblemInEnglish, english, type Speaker, speakerOf } from "../../words/index.js";

/** Words advice on new editions in English, with the message beside each. */
export const say: Speaker<"edition-problem"> = /* @__PURE__ */ speakerOf(english, editionProblemInEnglish);
