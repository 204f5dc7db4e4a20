import type { DropoutFinding, Finding, Score } from "../schema/index.js";
import { NO_OBSTACLE } from "./reasons/reasons.js";
import { tooFewNotesInAll } from "./reasons/tooFewNotes.js";
import { withoutBand } from "./silenceLength.js";

/** The finding in one plain sentence, to the player: what decided the verdict. */
export function sentenceOf(score: Score, finding: Omit<Finding, "sentence">): string {
  const general = finding.reasons.find(({ dropout }) => dropout === undefined);
  if (general !== undefined) return general.says;
  const decisive = decisiveReason(finding);
  if (decisive !== undefined) return decisive.says;
  const few = finding.verdict === "unclear" ? tooFewNotesInAll(finding.dropouts, finding.reasons) : undefined;
  if (few !== undefined) return few;
  const { dropouts, steadiness, verdict } = finding;
  const onlyUnsteady = verdict !== "within" && dropouts.every((dropout) => dropout.verdict === "within");
  if (dropouts.length === 0 || (onlyUnsteady && steadiness.verdict === verdict)) return steadySentence(score, finding);
  const rested = dropouts.findIndex((each) => each.verdict === "unclear" && typeof each.driftMs !== "number");
  if (verdict === "unclear" && rested >= 0 && finding.pairs.length > 0) {
    return `You played nothing through ${withoutBand(score, rested)}: play on through it, so that your time there can be heard.`;
  }
  const telling = mostTelling(finding);
  if (telling === undefined) return unclearSentence(finding);
  const { index, drift, percent } = telling;
  const after = `after ${withoutBand(score, index)}`;
  const size = `${Math.abs(Math.round(drift))} ms ${side(drift)} ${after}, about ${Math.abs(percent).toFixed(1)} % ${percent < 0 ? "fast" : "slow"}`;
  if (verdict === "within") return `In time: at most ${size}.`;
  if (verdict === "unclear") return `Too close to call: ${size}, which this take cannot tell from being in time.`;
  const { landing } = dropouts[index]!;
  if (landing !== null && "ms" in landing && landingDecides(score, dropouts[index]!)) {
    return `You kept the tempo but missed the downbeat: ${Math.abs(Math.round(landing.ms))} ms ${side(landing.ms)} ${after}.`;
  }
  return `You ${drift < 0 ? "rushed" : "dragged"}: ${size}.`;
}

/** Of the reasons told of silences with the take's verdict, the one that weighs most. */
function decisiveReason({
  reasons,
  dropouts,
  verdict,
}: Omit<Finding, "sentence">): Finding["reasons"][number] | undefined {
  if (verdict === "within") return undefined;
  const deciding = reasons.filter(({ dropout }) => dropout !== undefined && dropouts[dropout]?.verdict === verdict);
  const [first] = WEIGHTIEST.flatMap((code) => deciding.filter((reason) => reason.code === code));
  return first;
}

// A slip explains what comes after it; a landing that was off is told before one that was left out.
const WEIGHTIEST = ["SLIPPED", "LANDED_OFF", "STILL_AWAY", "MAYBE_SLIPPED", "LANDING_LEFT_OUT"] as const;

/** Whether the landing is further outside its limit than the drift is outside its own. */
function landingDecides({ tolerance }: Score, { from, to, driftMs, landing }: DropoutFinding): boolean {
  if (typeof driftMs !== "number" || landing === null || !("ms" in landing)) return false;
  if (Math.abs(driftMs) < LITTLE_MS) return true;
  const share =
    tolerance.driftPercent === undefined ? Number.POSITIVE_INFINITY : 10 * tolerance.driftPercent * (to - from);
  const limit = Math.min(tolerance.driftMs ?? Number.POSITIVE_INFINITY, share);
  return Math.abs(landing.ms) > (tolerance.landingMs ?? Number.POSITIVE_INFINITY) && Math.abs(driftMs) <= limit;
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
  const reason = finding.reasons.find(({ code }) => !NO_OBSTACLE.has(code))?.says;
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
  const steady = `your steadiness is ${Math.round(steadiness.accompaniedMs)} ms, around a place ${Math.abs(Math.round(offsetMs))} ms ${side(offsetMs)}`;
  if (score.tolerance.steadinessMs === undefined) return `With the band, ${steady}.`;
  const judged = { within: "Steady", beyond: "Not steady yet", unclear: "Too close to call" }[verdict];
  return `${judged}: ${steady}.`;
}
