import {
  english,
  progressInEnglish,
  progressProblemInEnglish,
  type Speaker,
  settingInEnglish,
  speakerOf,
} from "../words/index.js";

/** Words decisions and gates in English, with the message beside each. */
export const say: Speaker<"progress"> = /* @__PURE__ */ speakerOf<"progress" | "setting">(english, {
  ...progressInEnglish,
  ...settingInEnglish,
});

/** The same of problems with what is decided on. */
export const sayProblem: Speaker<"progress-problem"> = /* @__PURE__ */ speakerOf(english, progressProblemInEnglish);
