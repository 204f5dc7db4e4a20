import type { Finding, Score } from "../../../schema/index.js";
import { shownProbability } from "../../../take/index.js";
import { grouped, settingsWords } from "../../phrases.js";
import type { ChartText } from "../chartDocument.js";
import { type ChartWords, offText } from "../words.js";
import { tooLittleText } from "./landingText.js";

/** Most silences described one by one: our choice, because screen readers read them aloud. */
const TOLD = 12;

/** The texts of a take chart. */
export function takeWords(score: Score, finding: Finding, words: ChartWords): ChartText {
  const { say } = words;
  const { take, verdict } = finding;
  const probability = shownProbability(finding);
  return {
    title: words.word(finding.message, finding.sentence),
    subject: say("chart.take-subject", {
      take: take === undefined ? say("chart.take") : say("chart.take-named", { take }),
      verdict: say("chart.verdict-of-take", { verdict }),
      known: probability === undefined ? "unknown" : "known",
      chance: probability === undefined ? "" : chanceText(probability, words),
      drill: score.drill,
      settings: settingsWords(score.rung, words),
      mix: score.mix,
    }),
    description: descriptionOf(score, finding, words),
  };
}

function descriptionOf(score: Score, finding: Finding, words: ChartWords): string {
  const { say } = words;
  const silences = finding.dropouts
    .slice(0, TOLD)
    .map((dropout, i) => say("chart.silence", { number: i + 1, parts: partsOf(dropout, words) }));
  const rest = finding.dropouts.length - silences.length;
  return [
    say("chart.asynchrony"),
    ...silences,
    ...(rest > 0 ? [say("chart.more-silences", { count: rest, shown: grouped(rest) })] : []),
    say("chart.notes", {
      played: `${finding.pairs.length}`,
      expected: score.expected.length,
      shown: grouped(score.expected.length),
      missed: `${finding.missed.length}`,
      added: `${finding.added.length}`,
    }),
  ].join(" ");
}

/** What a silence showed: its drift, where the student landed or slipped to, and its verdict. */
function partsOf(dropout: Finding["dropouts"][number], words: ChartWords): readonly string[] {
  const { say } = words;
  const { driftMs, standardErrorMs, landing, slip, verdict } = dropout;
  const parts: string[] = [];
  if (typeof driftMs !== "number")
    parts.push(say("chart.drift-unmeasured", { why: words.word(driftMs.message, driftMs.unmeasured) }));
  else {
    const off = offText(driftMs, words);
    parts.push(
      typeof standardErrorMs === "number"
        ? say("chart.drift-known", { off, error: standardErrorMs.toFixed(0) })
        : say("chart.drift", { off }),
    );
  }
  if (landing !== null && "leftOut" in landing) parts.push(say("chart.landing-left-out"));
  else if (landing !== null && "ms" in landing) parts.push(say("chart.landed", { off: offText(landing.ms, words) }));
  if (slip)
    parts.push(say("chart.slipped", { side: slip.beats < 0 ? "ahead" : "behind", beats: Math.abs(slip.beats) }));
  const little = tooLittleText(dropout, words);
  return [...parts, ...(little === "" ? [] : [little]), say("chart.verdict", { verdict })];
}

/** A probability in per cent; never "100 %" or "0 %", because one take does not make it certain. */
function chanceText(probability: number, { say }: ChartWords): string {
  const share = probability > 0.995 ? "almost-all" : probability < 0.005 ? "almost-none" : "between";
  return say("chart.chance", { share, percent: 100 * probability });
}

/** The drift of a silence: "12 ms late", or a question mark when it was not measured. */
export function driftText({ driftMs }: Finding["dropouts"][number], words: ChartWords): string {
  return typeof driftMs === "number" ? offText(driftMs, words) : "?";
}

/** The largest drift within tolerance at the end of a silence, ms; `undefined` without a tolerance for drift. */
export function driftLimit(
  { tolerance }: Score,
  { from, to }: { readonly from: number; readonly to: number },
): number | undefined {
  const limits = [
    ...(tolerance.driftMs === undefined ? [] : [tolerance.driftMs]),
    ...(tolerance.driftPercent === undefined ? [] : [tolerance.driftPercent * 10 * (to - from)]),
  ];
  return limits.length === 0 ? undefined : Math.min(...limits);
}
