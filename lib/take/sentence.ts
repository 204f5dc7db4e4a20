import type { DropoutFinding, Finding, Reason, Score, Unmeasured } from "../schema/index.js";
import { NO_OBSTACLE } from "./reasons/reasons.js";
import { offBy, say, unmeasured } from "./say.js";
import { lengthPhrase } from "./silenceLength.js";

type Told = Omit<Finding, "sentence" | "message">;
/** A sentence, and its message unless it was read from a file of before there were messages. */
type Said = Pick<Reason, "says" | "message">;

/** The finding in one plain sentence, to the player: what decided the verdict. */
export function sentenceOf(score: Score, finding: Told): Said {
  const general = finding.reasons.find(({ dropout }) => dropout === undefined);
  if (general !== undefined) return general;
  const decisive = decisiveReasons(finding);
  if (decisive.length > 0) return sayAll(decisive);
  const { dropouts, steadiness, verdict } = finding;
  const shown = dropouts.some((dropout) => dropout.verdict === verdict);
  if (dropouts.length === 0 || (!shown && steadiness.verdict === verdict)) return steadySentence(score, finding);
  const rested = dropouts.findIndex((each) => each.verdict === "unclear" && isRested(each));
  if (verdict === "unclear" && rested >= 0 && finding.pairs.length > 0)
    return say("take.nothing-in-silence", { length: lengthPhrase(score, rested) });
  const telling = mostTelling(finding);
  if (telling === undefined) return landingAlone(score, finding) ?? unclearSentence(finding);
  const { index, drift, percent } = telling;
  const { landing } = dropouts[index]!;
  const length = lengthPhrase(score, index);
  const size = { ...offBy(drift), ...changeOf(percent), length };
  if (verdict === "within") return say("take.in-time", size);
  if (landing !== null && "ms" in landing && landingDecides(score, dropouts[index]!, verdict)) {
    if (verdict === "beyond") return say("take.missed-downbeat", { ...offBy(landing.ms), length });
    return say("take.landing-too-close", { ...offBy(landing.ms), length, limit: score.tolerance.landingMs! });
  }
  return verdict === "unclear" ? say("take.too-close", size) : say("take.went-off", size);
}

const isRested = ({ driftMs }: DropoutFinding): boolean =>
  typeof driftMs !== "number" && /-played$/.test(driftMs.message?.key ?? "");

const FAR_OUT = 1.5;

/** Where no drift is known: the landing furthest off, of those of the take's verdict. */
function landingAlone(score: Score, { dropouts, verdict }: Told): Said | undefined {
  const landed = dropouts.flatMap(({ landing, probability, verdict: own }, index) =>
    landing !== null && "ms" in landing && own === verdict && typeof probability === "number"
      ? [{ index, ms: landing.ms }]
      : [],
  );
  const [most] = landed.sort((a, b) => Math.abs(b.ms) - Math.abs(a.ms));
  if (most === undefined) return undefined;
  const length = lengthPhrase(score, most.index);
  if (verdict !== "unclear")
    return say("take.landed", { state: verdict, off: say("take.off", offBy(most.ms)).message, length });
  const limit = score.tolerance.landingMs;
  if (limit === undefined) return undefined;
  // What lies so far out would not be unclear, were it sure to be the landing.
  if (Math.abs(most.ms) > FAR_OUT * limit) return cannotJudge(unmeasured("take.unmeasured.landing-unknown"));
  return say("take.landing-too-close", { ...offBy(most.ms), length, limit });
}

/** Of the reasons told of silences with the take's verdict, those of the kind that weighs most. */
function decisiveReasons({ reasons, dropouts, verdict }: Told): readonly Reason[] {
  if (verdict === "within") return [];
  const deciding = reasons.filter(({ dropout }) => dropout !== undefined && dropouts[dropout]?.verdict === verdict);
  for (const code of WEIGHTIEST) {
    const kind = deciding.filter((reason) => reason.code === code);
    if (kind.length > 0) return kind;
  }
  return [];
}

// A slip explains what comes after it; what was not played or cannot be read comes before a landing that was left out, which it may explain.
const WEIGHTIEST = [
  "SLIPPED",
  "LANDED_OFF",
  "STILL_AWAY",
  "MAYBE_SLIPPED",
  "POORLY_EXPLAINED",
  "DOUBLE_RATE",
  "HALF_RATE",
  "TWO_PAIRINGS",
  "NOTES_TOO_CLOSE",
  "TOO_FEW_NOTES",
  "LANDING_LEFT_OUT",
] as const;

/** Reasons of one kind in one sentence: the first, or for notes that were not played all silences together. */
function sayAll(reasons: readonly Reason[]): Said {
  const few = reasons.flatMap(({ message }) => (message?.key === "take.few-played" ? [message.parameters] : []));
  if (few.length < 2 || few.length < reasons.length) return reasons[0]!;
  const sum = (name: string): number => few.reduce((total, parameters) => total + Number(parameters[name]), 0);
  return say("take.few-played-in-all", { played: sum("played"), notes: sum("notes"), silences: few.length });
}

/** Whether the landing is further outside its limit, or nearer to it, than the drift is to its own. */
function landingDecides(
  { tolerance }: Score,
  { from, to, driftMs, landing }: DropoutFinding,
  verdict: Finding["verdict"],
): boolean {
  if (typeof driftMs !== "number" || landing === null || !("ms" in landing)) return false;
  if (verdict === "beyond" && Math.abs(driftMs) < LITTLE_MS) return true;
  if (tolerance.landingMs === undefined) return false;
  const share =
    tolerance.driftPercent === undefined ? Number.POSITIVE_INFINITY : 10 * tolerance.driftPercent * (to - from);
  const drift = Math.abs(driftMs) / Math.min(tolerance.driftMs ?? Number.POSITIVE_INFINITY, share);
  const landed = Math.abs(landing.ms) / tolerance.landingMs;
  return verdict === "beyond" ? landed > 1 && drift <= 1 : landed > drift;
}

// Below this a drift is not worth naming as rushing or dragging: the smallest displacement listeners notice (6 ms: Friberg & Sundberg 1995).
const LITTLE_MS = 6;

/** A change of tempo as a size in per cent, to one decimal as it is shown. */
function changeOf(percent: number): { readonly change: "some" | "little"; readonly percent: number } {
  const shown = Math.round(10 * Math.abs(percent)) / 10;
  return { change: shown > 0 ? "some" : "little", percent: shown };
}

/** The dropout that decides: among those of the take's verdict, the one furthest off in per cent of tempo. */
function mostTelling(finding: Told): { index: number; drift: number; percent: number } | undefined {
  let best: { index: number; drift: number; percent: number } | undefined;
  finding.dropouts.forEach(({ driftMs, driftPercent, verdict }: DropoutFinding, index) => {
    if (typeof driftMs !== "number" || typeof driftPercent !== "number") return;
    if (verdict !== finding.verdict && finding.dropouts.some((other) => other.verdict === finding.verdict)) return;
    if (best === undefined || Math.abs(driftPercent) > Math.abs(best.percent))
      best = { index, drift: driftMs, percent: driftPercent };
  });
  return best;
}

function unclearSentence(finding: Told): Said {
  const reason = finding.reasons.find(({ code }) => !NO_OBSTACLE.has(code));
  if (reason !== undefined) return reason;
  const silent = finding.dropouts.find(({ driftMs }) => typeof driftMs !== "number");
  return cannotJudge(silent?.driftMs);
}

function cannotJudge(value: number | Unmeasured | undefined): Said {
  const why =
    typeof value === "object" ? (value.message ?? value.unmeasured) : say("take.unmeasured.too-little").message;
  return say("take.cannot-be-judged", { why });
}

function steadySentence({ tolerance }: Score, { steadiness, offsetMs, verdict }: Told): Said {
  const { accompaniedMs } = steadiness;
  if (typeof accompaniedMs !== "number" || typeof offsetMs !== "number") return cannotJudge(accompaniedMs);
  const place = say("take.place", offBy(offsetMs)).message;
  const limit = tolerance.steadinessMs;
  if (limit === undefined) return say("take.steadiness-without-limit", { place, steadiness: accompaniedMs });
  return say("take.steadiness", { state: verdict, place, steadiness: accompaniedMs, limit });
}
