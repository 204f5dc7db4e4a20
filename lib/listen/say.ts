import { english, listenProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words problems with MIDI files and recordings in English, with the message beside each. */
export const sayProblem: Speaker<"listen-problem"> = /* @__PURE__ */ speakerOf(english, listenProblemInEnglish);
