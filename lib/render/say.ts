import { english, renderProblemInEnglish, type Speaker, speakerOf } from "../words/index.js";

/** Words problems of MIDI and MusicXML output in English, with the message beside each. */
export const sayProblem: Speaker<"render-problem"> = /* @__PURE__ */ speakerOf(english, renderProblemInEnglish);
