import {
  english,
  planInEnglish,
  planProblemInEnglish,
  type Speaker,
  settingInEnglish,
  speakerOf,
} from "../words/index.js";

/** Words plans in English, with the message beside each. */
export const say: Speaker<"plan"> = /* @__PURE__ */ speakerOf<"plan" | "setting">(english, {
  ...planInEnglish,
  ...settingInEnglish,
});

/** The same of problems with what a plan is asked for. */
export const sayProblem: Speaker<"plan-problem"> = /* @__PURE__ */ speakerOf(english, planProblemInEnglish);
