import { drillProblemInEnglish, english, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with drills as they are written, in English, with the message beside each. */
export const say: Speaker<"drill-problem"> = /* @__PURE__ */ speakerOf(english, drillProblemInEnglish);
