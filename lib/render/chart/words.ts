import { chartInEnglish, english, type Words, wordsOf } from "../../words/index.js";

/** What charts say. */
export type ChartWords = Words<"chart">;

export const ENGLISH: ChartWords = /* @__PURE__ */ wordsOf(english, chartInEnglish);

/** How far off a moment is, for people, who never see a bare sign: "176 ms early", "176 ± 13 ms early". Whole milliseconds; negative is early. */
export function offText(ms: number, { say }: ChartWords, error?: number): string {
  const size = Math.abs(ms).toFixed(0);
  const side = size === "0" ? "on" : ms < 0 ? "early" : "late";
  return error === undefined
    ? say("chart.off", { side, ms: size })
    : say("chart.off-about", { side, ms: size, error: error.toFixed(0) });
}
