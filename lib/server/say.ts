import { english, type Speaker, serverProblemInEnglish, speakerOf } from "../words/index.js";

/** Words problems with what is asked of a school's server in English, with the message beside each. */
export const sayProblem: Speaker<"server-problem"> = /* @__PURE__ */ speakerOf(english, serverProblemInEnglish);
