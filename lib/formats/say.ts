import { english, formatsProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with files of notes in English, with the message beside each. */
export const say: Speaker<"formats-problem"> = /* @__PURE__ */ speakerOf(english, formatsProblemInEnglish);
