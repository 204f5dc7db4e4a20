import pc from "picocolors";
import { textTake } from "../../render/chart/index.js";
import type { Finding, Score } from "../../schema/index.js";
import { plain } from "./printableText.js";

type Measured = Finding["offsetMs"] | null;

/** A finding as text: verdict and sentence, each silence with its bars, steadiness, and remarks. */
export function findingText(finding: Finding, score: Score, colour: boolean): string {
  const ink = pc.createColors(colour);
  const verdictInk = { within: ink.green, beyond: ink.red, unclear: ink.yellow }[finding.verdict];
  const chance =
    typeof finding.probability === "number" ? `  (chance to be inside: ${percentText(finding.probability)})` : "";
  const steadiness = finding.steadiness;
  const lines = [
    `${ink.bold(plain(finding.take ?? "take"))}  ${verdictInk(finding.verdict)}${chance}`,
    `  ${plain(finding.sentence)}`,
    "",
    ...(score.dropouts.length + score.open.length > 0 ? [textTake(score, finding)] : []),
    row("offset", `${signedMs(finding.offsetMs)} while accompanied`),
    row(
      "steadiness",
      `${plainMs(steadiness.accompaniedMs)} accompanied, ${plainMs(steadiness.aloneMs)} alone (${steadiness.verdict})`,
    ),
    row("clock, motor", `${plainMs(steadiness.clockMs)} per root beat, ${plainMs(steadiness.motorMs)} per note`),
    row(
      "notes",
      `${finding.pairs.length} of ${score.expected.length} played, ${finding.missed.length} left out, ${finding.added.length} added`,
    ),
    ...finding.openBars.map((open) => row("open bars", openText(open))),
    ...finding.reasons.map((reason) => row("note", `${plain(reason.says)} [${reason.code}]`)),
  ];
  return lines.map((line) => `${line}\n`).join("");
}

function openText(open: Finding["openBars"][number]): string {
  const scale = typeof open.inScale === "number" ? `, ${shareText(open.inScale)} of the notes in the scale` : "";
  const drift = typeof open.driftMs === "number" ? `drift ${signedMs(open.driftMs)}` : signedMs(open.driftMs);
  return `${open.notes} notes, ${drift}${scale}`;
}

function row(label: string, text: string): string {
  return `  ${label.padEnd(13)} ${text}`;
}

function signedMs(value: Measured): string {
  if (value === null) return "none";
  return typeof value === "number" ? `${signed(value, 0)} ms` : `unmeasured: ${plain(value.unmeasured)}`;
}

function plainMs(value: Measured): string {
  if (value === null) return "none";
  return typeof value === "number" ? `${value.toFixed(0)} ms` : "unmeasured";
}

function signed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return value > 0 && Number(text) !== 0 ? `+${text}` : Number(text) === 0 ? text.replace("-", "") : text;
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
