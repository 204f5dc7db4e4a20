import type { Finding, Score } from "../../schema/index.js";

/** What a take came to: clean, unclear, or beyond tolerance and by what. */
export const OUTCOMES = ["within", "unclear", "drift", "landing", "steadiness", "notes"] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** Number of an outcome, as tables and counts have it. */
export const WITHIN = 0;
export const UNCLEAR = 1;

/**
 * What a finding came to. A take beyond tolerance is beyond by its drift where that is too large, as what comes after follows from it; else by the
 * figure that is the largest multiple of its tolerance; "notes" where none is: slips, and notes not played.
 */
export function outcomeOf(finding: Finding, { tolerance }: Score): Outcome {
  if (finding.verdict !== "beyond") return finding.verdict;
  const { driftMs = Infinity, driftPercent = Infinity, landingMs = Infinity, steadinessMs = Infinity } = tolerance;
  const most = { drift: 0, landing: 0, steadiness: 0 };
  const weigh = (of: keyof typeof most, value: unknown, limit: number): void => {
    if (typeof value === "number") most[of] = Math.max(most[of], Math.abs(value) / limit);
  };
  if (finding.dropouts.some(({ slip }) => slip !== null && typeof slip === "object" && "beats" in slip)) return "notes";
  for (const { driftMs: ms, driftPercent: percent, landing } of finding.dropouts) {
    weigh("drift", ms, driftMs);
    weigh("drift", percent, driftPercent);
    if (landing !== null && typeof landing === "object" && "ms" in landing) weigh("landing", landing.ms, landingMs);
  }
  weigh("steadiness", finding.steadiness.accompaniedMs, steadinessMs);
  if (most.drift > 1) return "drift";
  if (Math.max(most.landing, most.steadiness) <= 1) return "notes";
  return most.landing >= most.steadiness ? "landing" : "steadiness";
}
