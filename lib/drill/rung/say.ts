import { english, rungProblemInEnglish, type Speaker, speakerOf } from "../../words/index.js";

/** Words problems with rungs and mixes that are asked for in English, with the message beside each. */
export const say: Speaker<"rung-problem"> = /* @__PURE__ */ speakerOf(english, rungProblemInEnglish);
