import { english, recordProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with learning records in English, with the message beside each. */
export const sayProblem: Speaker<"record-problem"> = /* @__PURE__ */ speakerOf(english, recordProblemInEnglish);
