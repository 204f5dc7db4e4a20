import { english, type Speaker, settingProblemInEnglish, speakerOf } from "../../words/index.js";

/** Words problems with settings and lengths, which every decision may read, in English, with the message beside each. */
export const say: Speaker<"setting-problem"> = /* @__PURE__ */ speakerOf(english, settingProblemInEnglish);
