import { drillProblemInEnglish, english, type Speaker, settingInEnglish, speakerOf } from "../words/index.js";

/** Words problems with drills as they are written, in English, with the message beside each. */
export const say: Speaker<"drill-problem" | "setting"> = /* @__PURE__ */ speakerOf<"drill-problem" | "setting">(
  english,
  {
    ...drillProblemInEnglish,
    ...settingInEnglish,
  },
);
