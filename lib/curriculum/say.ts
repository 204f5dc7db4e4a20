import { curriculumProblemInEnglish, english, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with courses as they are written, in English, with the message beside each. */
export const say: Speaker<"curriculum-problem"> = /* @__PURE__ */ speakerOf(english, curriculumProblemInEnglish);
