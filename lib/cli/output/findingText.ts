import { asideText } from "../../base/index.js";
import { textTake } from "../../render/chart/index.js";
import type { Finding, Score } from "../../schema/index.js";
import { inkFor } from "./ink.js";
import { plain } from "./printableText.js";

type Measured = Finding["offsetMs"] | null;

/** A finding as text: verdict and sentence, each silence with its bars, steadiness, and reasons. */
export function findingText(finding: Finding, score: Score, colour: boolean): string {
  const ink = inkFor(colour);
  const verdictInk = { within: ink.blue, beyond: ink.rust, unclear: ink.bold }[finding.verdict];
  const chance =
    typeof finding.probability === "number" ? `  (chance that it is within: ${percentText(finding.probability)})` : "";
  const steadiness = finding.steadiness;
  const lines = [
    `${ink.bold(plain(finding.take ?? "take"))}  ${verdictInk(finding.verdict)}${chance}`,
    `  ${plain(finding.sentence)}`,
    "",
    ...(score.dropouts.length + score.open.length > 0 ? [textTake(score, finding)] : []),
    row("offset", `${asideMs(finding.offsetMs)} while accompanied`),
    row(
      "steadiness",
      `${plainMs(steadiness.accompaniedMs)} accompanied, ${plainMs(steadiness.aloneMs)} alone (${steadiness.verdict})`,
    ),
    row(
      "notes",
      `${finding.pairs.length} of ${score.expected.length} played, ${finding.missed.length} left out, ${finding.added.length} added`,
    ),
    ...finding.openBars.map((open) => row("open bars", openText(open))),
    ...finding.reasons.map((reason) => row("why", `${plain(reason.says)} [${reason.code}]`)),
  ];
  return lines.map((line) => `${line}\n`).join("");
}

function openText(open: Finding["openBars"][number]): string {
  const scale = typeof open.inScale === "number" ? `, ${shareText(open.inScale)} of the notes in the scale` : "";
  const drift = typeof open.driftMs === "number" ? `drift ${asideMs(open.driftMs)}` : asideMs(open.driftMs);
  return `${open.notes} notes, ${drift}${scale}`;
}

function row(label: string, text: string): string {
  return `  ${label.padEnd(13)} ${text}`;
}

function asideMs(value: Measured): string {
  if (value === null) return "none";
  return typeof value === "number" ? asideText(value) : `unmeasured: ${plain(value.unmeasured)}`;
}

function plainMs(value: Measured): string {
  if (value === null) return "none";
  return typeof value === "number" ? `${value.toFixed(0)} ms` : "unmeasured";
}

/** A probability in per cent, never "100 %" or "0 %": a probability from one take is not certain. */
function percentText(share: number): string {
  if (share > 0.995) return "over 99 %";
  if (share < 0.005) return "under 1 %";
  return `${(share * 100).toFixed(0)} %`;
}

/** A counted share in per cent. */
function shareText(share: number): string {
  return `${(share * 100).toFixed(0)} %`;
}
