import { english, recordingProblemInEnglish, type Speaker, speakerOf } from "../../words/index.js";

/** Words problems with sound files in English, with the message beside each. */
export const say: Speaker<"recording-problem"> = /* @__PURE__ */ speakerOf(english, recordingProblemInEnglish);
