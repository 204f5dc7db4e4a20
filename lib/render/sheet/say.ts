import { english, type Speaker, sheetProblemInEnglish, speakerOf } from "../../words/index.js";

/** Words problems of sheets in English, with the message beside each. */
export const sayProblem: Speaker<"sheet-problem"> = /* @__PURE__ */ speakerOf(english, sheetProblemInEnglish);
