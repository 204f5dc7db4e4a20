import type { DropoutFinding, Finding, Score } from "../schema/index.js";
import { silenceLength } from "./silenceLength.js";

/** The finding in one plain sentence, to the player. */
export function sentenceOf(score: Score, finding: Omit<Finding, "sentence">): string {
  const general = finding.reasons.find(({ dropout }) => dropout === undefined);
  if (general !== undefined) return general.says;
  const slipped = finding.reasons.find(({ code }) => code === "SLIPPED");
  if (slipped !== undefined) return slipped.says;
  if (finding.dropouts.length === 0) return steadySentence(score, finding);
  const telling = mostTelling(finding);
  if (telling === undefined) return unclearSentence(finding);
  const { index, drift, percent } = telling;
  const after = `after ${silenceLength(score, index)} of silence`;
  const size = `${Math.abs(Math.round(drift))} ms ${side(drift)} ${after}, about ${Math.abs(percent).toFixed(1)} % ${percent < 0 ? "fast" : "slow"}`;
  if (finding.verdict === "within") return `In time: at most ${size}.`;
  if (finding.verdict === "unclear")
    return `Too close to call: ${size}, which this take cannot tell from being in time.`;
  const { reentryMs } = finding.dropouts[index]!;
  if (Math.abs(drift) < LITTLE_MS && typeof reentryMs === "number") {
    return `You kept the tempo but missed the downbeat: ${Math.abs(Math.round(reentryMs))} ms ${side(reentryMs)} ${after}.`;
  }
  return `You ${drift < 0 ? "rushed" : "dragged"}: ${size}.`;
}

// Below this a drift is not worth naming as rushing or dragging: the smallest displacement listeners notice (6 ms: Friberg & Sundberg 1995).
const LITTLE_MS = 6;

const side = (ms: number): string => (ms < 0 ? "early" : "late");

/** The dropout that decides: among those of the take's verdict, the one furthest off in per cent of tempo. */
function mostTelling(
  finding: Omit<Finding, "sentence">,
): { index: number; drift: number; percent: number } | undefined {
  let best: { index: number; drift: number; percent: number } | undefined;
  finding.dropouts.forEach(({ driftMs, driftPercent, verdict }: DropoutFinding, index) => {
    if (typeof driftMs !== "number" || typeof driftPercent !== "number") return;
    if (verdict !== finding.verdict && finding.dropouts.some((other) => other.verdict === finding.verdict)) return;
    if (best === undefined || Math.abs(driftPercent) > Math.abs(best.percent))
      best = { index, drift: driftMs, percent: driftPercent };
  });
  return best;
}

function unclearSentence(finding: Omit<Finding, "sentence">): string {
  const reason = finding.reasons[0]?.says;
  if (reason !== undefined) return reason;
  const silent = finding.dropouts.find(({ driftMs }) => typeof driftMs !== "number");
  const why =
    silent !== undefined && typeof silent.driftMs !== "number" ? silent.driftMs.unmeasured : "too little was played";
  return `This take cannot be judged: ${why}.`;
}

function steadySentence(score: Score, { steadiness, offsetMs, verdict }: Omit<Finding, "sentence">): string {
  if (typeof steadiness.accompaniedMs !== "number" || typeof offsetMs !== "number") {
    const why =
      typeof steadiness.accompaniedMs === "number" ? "too little was played" : steadiness.accompaniedMs.unmeasured;
    return `This take cannot be judged: ${why}.`;
  }
  const jitter = `your notes spread by ${Math.round(steadiness.accompaniedMs)} ms around a place ${Math.abs(Math.round(offsetMs))} ms ${side(offsetMs)}`;
  if (score.tolerance.steadinessMs === undefined) return `With the accompaniment, ${jitter}.`;
  const judged = { within: "Steady", beyond: "Not steady yet", unclear: "Too close to call" }[verdict];
  return `${judged}: ${jitter}.`;
}
