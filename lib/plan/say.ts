import { english, planInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words plans in English, with the message beside each. */
export const say: Speaker<"plan"> = /* @__PURE__ */ speakerOf(english, planInEnglish);
