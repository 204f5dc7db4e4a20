import { chartInEnglish, english, settingInEnglish, valueInEnglish, type Words, wordsOf } from "../../words/index.js";

/** What charts say. */
export type ChartWords = Words<"chart" | "setting">;

export const ENGLISH: ChartWords = /* @__PURE__ */ wordsOf(english, {
  ...chartInEnglish,
  ...settingInEnglish,
  ...valueInEnglish,
});

/** "kit", "kit and bass", "kit, bass and lead". */
export function listed(names: readonly string[], words: ChartWords): string {
  if (names.length < 2) return names[0] ?? "";
  return words.say("chart.list", { others: names.slice(0, -1), last: names.at(-1)! });
}

/** How far off a moment is, for people, who never see a bare sign: "176 ms early", "176 ± 13 ms early". Whole milliseconds; negative is early. */
export function offText(ms: number, { say }: ChartWords, error?: number): string {
  const size = Math.abs(ms).toFixed(0);
  const side = size === "0" ? "on" : ms < 0 ? "early" : "late";
  return error === undefined
    ? say("chart.off", { side, ms: size })
    : say("chart.off-about", { side, ms: size, error: error.toFixed(0) });
}
