import type { Finding, Score } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import type { Performance, SilenceTruth } from "../../reference/players/perform.js";
import { withoutPitch } from "../../reference/players/perform.js";

/** Truly out: drift or landing over 1.5 times its limit. Truly in: both below 0.9 times theirs. What lies between is not counted. */
export type TrueClass = "in" | "out" | "between";
const OUT = 1.5;
const IN = 0.9;

export type Verdict = Finding["verdict"];

/** One silence as it was, and as it was found. */
export interface Judged {
  readonly truth: SilenceTruth;
  readonly true: TrueClass;
  readonly verdict: Verdict;
  /** Found less true, and the standard error claimed, milliseconds; undefined when it was not measured. */
  readonly drift: { readonly error: number; readonly standardError: number } | undefined;
  /** Found less true, milliseconds; undefined when it was not measured or not played. */
  readonly landingError: number | undefined;
  /** Whether a landing that was left out was said to be; undefined for a finding that has no place to say it. */
  readonly saidLeftOut: boolean | undefined;
  /** Slip found, beats; undefined for a finding that has no place to say it. */
  readonly slipBeats: number | undefined;
}

export interface JudgedTake {
  readonly verdict: Verdict;
  readonly silences: readonly Judged[];
}

/** What a finding may say of a silence besides what every edition of its schema has. */
interface LaterFields {
  readonly landing?: { readonly ms?: number; readonly leftOut?: boolean } | null;
  readonly slip?: { readonly beats: number } | null;
}

/** The take assessed on the rung, with its pitches or without. */
export function judge(score: Score, performance: Performance, hears: "pitches" | "onsets only"): JudgedTake {
  const { take, truths, stage } = performance;
  const finding = assess(score, hears === "pitches" ? take : withoutPitch(take));
  const silences = stage.silences.map(({ dropout }, index): Judged => {
    const found = finding.dropouts[dropout]!;
    const { landing, slip } = found as LaterFields;
    const truth = truths[index]!;
    const { driftMs, standardErrorMs, verdict } = found;
    const landed = landing?.ms;
    const measured = typeof driftMs === "number" && typeof standardErrorMs === "number";
    const hit = typeof landed === "number" && truth.landingMs !== undefined && truth.landingPlayed;
    return {
      truth,
      true: trueClass(score, dropout, truth),
      verdict,
      drift: measured ? { error: driftMs - truth.driftMs, standardError: standardErrorMs } : undefined,
      landingError: hit ? landed - truth.landingMs : undefined,
      saidLeftOut: landing === undefined ? undefined : landing?.leftOut !== undefined,
      slipBeats: slip === undefined ? undefined : (slip?.beats ?? 0),
    };
  });
  return { verdict: finding.verdict, silences };
}

/**
 * Where a silence truly lies against the rung's own limits. The landing counts if it was played; one that was left out makes nothing out, and leaves a silence in
 * only if it would have been in where it would have sounded.
 */
export function trueClass({ tolerance, dropouts }: Score, dropout: number, truth: SilenceTruth): TrueClass {
  const { from, to } = dropouts[dropout]!;
  const share = tolerance.driftPercent === undefined ? Infinity : (tolerance.driftPercent / 100) * (to - from) * 1000;
  const drift = Math.abs(truth.driftMs) / Math.min(share, tolerance.driftMs ?? Infinity);
  const landing = Math.abs(truth.landingMs ?? 0) / (tolerance.landingMs ?? Infinity);
  if (drift > OUT || (truth.landingPlayed && landing > OUT)) return "out";
  return drift < IN && landing < IN ? "in" : "between";
}
