import type { Unmeasured } from "../schema/index.js";
import { english, reportInEnglish, type Speaker, speakerOf } from "../words/index.js";

const say: Speaker<"report"> = /* @__PURE__ */ speakerOf(english, reportInEnglish);

/** Why something about a student cannot be said, in English with its message. */
export function unmeasured(
  ...why: ["report.gate-too-wide"] | ["report.no-course"] | ["report.gate-holds", { takes: number }]
): Unmeasured {
  const { says, message } = why[0] === "report.gate-holds" ? say(why[0], why[1]) : say(why[0]);
  return { unmeasured: says, message };
}
