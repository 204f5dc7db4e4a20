import { browserInEnglish, english, type Speaker, speakerOf } from "../words/index.js";

/** Words a browser's states in English, with the message beside each. */
export const say: Speaker<"browser"> = /* @__PURE__ */ speakerOf(english, browserInEnglish);
