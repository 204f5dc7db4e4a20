import { english, progressInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words decisions and gates in English, with the message beside each. */
export const say: Speaker<"progress"> = /* @__PURE__ */ speakerOf(english, progressInEnglish);
