import type { Finding } from "../schema/index.js";

export type Verdict = Finding["verdict"];

/**
 * How sure a finding must be: at least this probable to say `within`, at most the rest to say `beyond`; otherwise `unclear`.
 * Our choice: with calibrated probabilities a verdict then errs at most once in ten at the very edge of the tolerance, and less than once in
 * fifty at half as much again (measured: `npm run bench -- accuracy`).
 */
export const SURE = 0.9;

export function verdictOf(probability: number): Verdict {
  if (probability >= SURE) return "within";
  return probability <= 1 - SURE ? "beyond" : "unclear";
}

/** `beyond` when any is, `within` when all are, else `unclear`; `within` when there is nothing to judge. */
export function verdictOverAll(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes("beyond")) return "beyond";
  return verdicts.every((verdict) => verdict === "within") ? "within" : "unclear";
}

/**
 * The probability that a take is within, from 0 to 1, where the verdict follows from it; absent where it is unmeasured, or where something else decided and it
 * would say another verdict.
 *
 * @example shownProbability({ verdict: "unclear", probability: 0.98 }) // undefined
 */
export function shownProbability({
  verdict,
  probability,
}: Pick<Finding, "verdict" | "probability">): number | undefined {
  return typeof probability === "number" && verdictOf(probability) === verdict ? probability : undefined;
}
