import type { Finding } from "../../../schema/index.js";
import type { ChartWords } from "../words.js";

type Dropout = Finding["dropouts"][number];

/** A slip in words: "0.5 beats late". */
export function slipText({ beats }: NonNullable<Dropout["slip"]>, { say }: ChartWords): string {
  return say("chart.slip", { side: beats < 0 ? "early" : "late", beats: Math.abs(beats) });
}

/** What became of a landing that was not simply played: a slip, or that it was left out; "" otherwise. */
export function landingLost({ landing, slip }: Dropout, words: ChartWords): string {
  if (slip) return slipText(slip, words);
  return landing !== null && "leftOut" in landing ? words.say("chart.left-out") : "";
}

/** How much of a silence was played, where it was less than is asked for: "played 1 of 4"; "" otherwise. */
export function tooLittleText({ played }: Dropout, { say }: ChartWords): string {
  return played !== undefined && played.notes < played.asked
    ? say("chart.played", { notes: played.notes, of: played.of })
    : "";
}
