import { english, type Speaker, schemaProblemInEnglish, speakerOf } from "../words/index.js";

/** Words problems with the shape of documents in English, with the message beside each. */
export const say: Speaker<"schema-problem"> = /* @__PURE__ */ speakerOf(english, schemaProblemInEnglish);
