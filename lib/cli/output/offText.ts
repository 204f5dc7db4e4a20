import type { Words } from "../../words/index.js";

/** How far off a moment is, as `asideText` says it in English: "176 ms early". Milliseconds, with so many decimals; negative is early. */
export function offText(ms: number, { say }: Words, decimals = 0): string {
  const size = Math.abs(ms).toFixed(decimals);
  return say("chart.off", { side: Number(size) === 0 ? "on" : ms < 0 ? "early" : "late", ms: size });
}
