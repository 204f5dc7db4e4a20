import { asideText } from "../../../base/index.js";
import type { Finding, Score } from "../../../schema/index.js";
import { counted, settingsWords } from "../../phrases.js";
import type { ChartText } from "../chartDocument.js";
import { tooLittleText } from "./landingText.js";

/** Most silences described one by one: our choice, because screen readers read them aloud. */
const TOLD = 12;

/** The texts of a take chart. */
export function takeWords(score: Score, finding: Finding): ChartText {
  const chance =
    typeof finding.probability === "number" ? `, chance that it is within ${chanceText(finding.probability)}` : "";
  const take = finding.take === undefined ? "Take" : `Take ${finding.take}`;
  const verdict = { within: "within tolerance", beyond: "beyond tolerance", unclear: "unclear" }[finding.verdict];
  return {
    title: finding.sentence,
    subject: `${take}: ${verdict}${chance}. ${score.drill}, ${settingsWords(score.rung)}, mix ${score.mix}.`,
    description: descriptionOf(score, finding),
  };
}

function descriptionOf(score: Score, finding: Finding): string {
  const silences = finding.dropouts.slice(0, TOLD).map((dropout, i) => {
    const { driftMs, standardErrorMs, landing, slip, verdict } = dropout;
    const drift =
      typeof driftMs === "number"
        ? `drift ${asideText(driftMs)}${typeof standardErrorMs === "number" ? ` with a standard error of ${standardErrorMs.toFixed(0)} ms` : ""}`
        : `drift unmeasured, ${driftMs.unmeasured}`;
    const back =
      landing === null || "unmeasured" in landing
        ? ""
        : "leftOut" in landing
          ? ", landing left out"
          : `, landed ${asideText(landing.ms)}`;
    const slipped = slip
      ? `, slipped ${Math.abs(slip.beats).toFixed(1)} beats ${slip.beats < 0 ? "ahead" : "behind"}`
      : "";
    const little = tooLittleText(dropout);
    return `Silence ${i + 1}: ${drift}${back}${slipped}${little === "" ? "" : `, ${little}`}, ${verdict}.`;
  });
  const rest = finding.dropouts.length - silences.length;
  return [
    "Asynchrony along the take in milliseconds; up is late, down is early.",
    ...silences,
    rest > 0 ? `And ${counted(rest, "silence")} more.` : "",
    `${finding.pairs.length} of ${counted(score.expected.length, "expected note")} played, ${finding.missed.length} left out, ${finding.added.length} added.`,
  ]
    .filter((sentence) => sentence !== "")
    .join(" ");
}

/** A probability in per cent; never "100 %" or "0 %", because one take does not make it certain. */
function chanceText(share: number): string {
  if (share > 0.995) return "over 99 %";
  return share < 0.005 ? "under 1 %" : `${(100 * share).toFixed(0)} %`;
}

/** The drift of a silence: "12 ms late", or a question mark when it was not measured. */
export function driftText({ driftMs }: Finding["dropouts"][number]): string {
  return typeof driftMs === "number" ? asideText(driftMs) : "?";
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
