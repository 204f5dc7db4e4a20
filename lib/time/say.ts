import { english, meterProblemInEnglish, type Speaker, speakerOf, timeProblemInEnglish } from "../words/index.js";

/** Words problems with lengths and tempi in English, with the message beside each. */
export const say: Speaker<"time-problem"> = /* @__PURE__ */ speakerOf(english, timeProblemInEnglish);

/** The same for problems with meters, swings and beats. */
export const sayOfMeter: Speaker<"meter-problem"> = /* @__PURE__ */ speakerOf(english, meterProblemInEnglish);
