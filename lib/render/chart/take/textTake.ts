import { columnsOf, padColumns } from "../../../base/index.js";
import type { Finding, Score } from "../../../schema/index.js";
import { textStrip } from "../rung/textStrip.js";
import { visible } from "../svg.js";
import { type ChartWords, ENGLISH, offText } from "../words.js";
import { driftLimit } from "./description.js";
import { slipText, tooLittleText } from "./landingText.js";

/** Cells of a gauge on each side of its middle. */
const SIDE = 3;
const VERDICTS = ["within", "beyond", "unclear"] as const;
/** Cells from the middle to the edge of the tolerance. */
const EDGE = 2;

/**
 * The result of a take as text, for a terminal: the strip of its score, and beside each line the result of the silence that ends there: verdict, gauge
 * (early on the left, late on the right, brackets at the tolerance), drift with its standard error; and below it where the student landed, with the limit
 * when it is exceeded (or that the note was left out), or a slip, in beats,
 * and how much of the silence was played when that is less than is asked for.
 *
 * Control characters in what the finding says are shown as `·`. Every line ends in a line end.
 * @example textTake(score, finding).startsWith("  phrase 1") // true
 */
export function textTake(score: Score, finding: Finding, words: ChartWords = ENGLISH): string {
  const results = new Map(
    finding.dropouts.map((dropout, i): [number, readonly string[]] => [
      i,
      resultsOn(dropout, { drift: driftLimit(score, dropout), landing: score.tolerance.landingMs }, words).map(visible),
    ]),
  );
  return textStrip(score, { results, words });
}

interface Limits {
  readonly drift: number | undefined;
  readonly landing: number | undefined;
}

function resultsOn(dropout: Finding["dropouts"][number], limits: Limits, words: ChartWords): readonly string[] {
  const { driftMs, standardErrorMs } = dropout;
  const verdict = words.say("chart.verdict", { verdict: dropout.verdict });
  const landed = landingText(dropout, limits.landing, words);
  const below = [landed, tooLittleText(dropout, words)].filter((text) => text !== "").join(", ");
  const width = Math.max(...VERDICTS.map((each) => columnsOf(words.say("chart.verdict", { verdict: each }))));
  const more = below === "" ? [] : [`${" ".repeat(width)} ${below}`];
  if (typeof driftMs !== "number")
    return [words.say("chart.unmeasured", { verdict, why: words.word(driftMs.message, driftMs.unmeasured) }), ...more];
  const error = typeof standardErrorMs === "number" ? standardErrorMs : undefined;
  const gauge = limits.drift === undefined ? "" : `${driftGauge(driftMs, limits.drift)} `;
  return [`${padColumns(verdict, width)} ${gauge}${offText(driftMs, words, error)}`, ...more];
}

/** Where the student landed. A slip says more than that. */
function landingText(
  { landing, slip }: Finding["dropouts"][number],
  limit: number | undefined,
  words: ChartWords,
): string {
  const { say } = words;
  if (slip) return say("chart.slipped-by", { slip: slipText(slip, words) });
  if (landing === null || "unmeasured" in landing) return "";
  if ("leftOut" in landing) return say("chart.landing-left-out");
  const off = Math.abs(landing.ms).toFixed(0) === "0" ? say("chart.on-the-beat") : offText(landing.ms, words);
  // As it reads: "190 ms early (limit 190)" would say the opposite.
  return limit !== undefined && Math.round(Math.abs(landing.ms)) > limit
    ? say("chart.landed-limit", { off, limit })
    : say("chart.landed", { off });
}

/** A gauge of a drift: `│` is no drift, brackets are the tolerance, `●` is the drift, `◂` and `▸` a drift beyond the ends of the gauge. */
export function driftGauge(driftMs: number, limitMs: number): string {
  const cells: string[] = Array.from({ length: 2 * SIDE + 1 }, (_, i) => (Math.abs(i - SIDE) < EDGE ? "·" : " "));
  cells[SIDE] = "│";
  cells[SIDE - EDGE] = "[";
  cells[SIDE + EDGE] = "]";
  // A drift within tolerance is always inside the brackets, a drift beyond it always outside.
  const share = Math.abs(driftMs) / limitMs;
  const steps =
    share <= 1 ? Math.min(EDGE - 1, Math.round(share * EDGE)) : Math.max(EDGE + 1, Math.round(share * EDGE));
  const place = SIDE + Math.sign(driftMs) * Math.min(SIDE, steps);
  cells[place] = steps > SIDE ? (driftMs < 0 ? "◂" : "▸") : "●";
  return cells.join("");
}
