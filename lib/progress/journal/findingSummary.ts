import type { DropoutFinding, Finding, Measured, NotesLeftOut, SilenceKept, TakeAssessed } from "../../schema/index.js";
import { fingerprint } from "./fingerprint.js";

/** Decimals kept of milliseconds and per cent: our choice, much finer than the measurement error, and journals stay small. */
const DECIMALS = 2;
/** Decimals kept of the milliseconds of each silence: our choice, fewer than above because a take has many silences. */
const SILENCE_DECIMALS = 1;
/** Decimals kept of a probability: our choice. */
const PROBABILITY_DECIMALS = 4;

/**
 * The part of a finding that a journal keeps: verdict, probability, the numbers that reports and forecasts use, one row for each silence, how
 * many landings and other notes were left out, the codes of its reasons, and a fingerprint of the whole finding.
 */
export function findingSummary(
  finding: Finding,
): Pick<TakeAssessed, "verdict" | "mix" | "probability" | "measured" | "silences" | "leftOut" | "reasons" | "finding"> {
  const { verdict, mix, probability, steadiness } = finding;
  const largest = furthest(finding.dropouts.map(({ driftMs }) => driftMs));
  const dropout = largest === undefined ? undefined : finding.dropouts[largest];
  const landings = finding.dropouts.map(landingMsOf);
  const landing = furthest(landings);
  const measured: Measured = {
    ...kept("driftMs", dropout?.driftMs),
    ...kept("driftPercent", dropout?.driftPercent),
    ...kept("standardErrorMs", dropout?.standardErrorMs),
    ...kept("landingMs", landing === undefined ? undefined : landings[landing]),
    ...kept("offsetMs", finding.offsetMs),
    ...kept("accompaniedMs", steadiness.accompaniedMs),
    ...kept("aloneMs", steadiness.aloneMs),
    ...kept("clockMs", steadiness.clockMs),
    ...kept("motorMs", steadiness.motorMs),
  };
  const leftOut = notesLeftOut(finding);
  const reasons = [...new Set(finding.reasons.map(({ code }) => code))];
  return {
    verdict,
    ...(mix === undefined ? {} : { mix }),
    ...(typeof probability === "number" ? { probability: rounded(probability, PROBABILITY_DECIMALS) } : {}),
    ...(Object.keys(measured).length > 0 ? { measured } : {}),
    ...(finding.dropouts.length > 0 ? { silences: finding.dropouts.map(silenceKept) } : {}),
    ...(leftOut === undefined ? {} : { leftOut }),
    ...(reasons.length > 0 ? { reasons } : {}),
    finding: fingerprint(finding),
  };
}

function silenceKept(dropout: DropoutFinding): SilenceKept {
  const { driftMs, standardErrorMs, driftPercent } = dropout;
  const decimal = (value: unknown, decimals: number): number | null =>
    typeof value === "number" ? rounded(value, decimals) : null;
  return [
    decimal(driftMs, SILENCE_DECIMALS),
    decimal(standardErrorMs, SILENCE_DECIMALS),
    decimal(driftPercent, DECIMALS),
    decimal(landingMsOf(dropout), SILENCE_DECIMALS),
  ];
}

/** Landings left out and asked for, then other notes; `undefined` where none is asked for. A landing of which nothing is known is not counted. */
export function notesLeftOut({ dropouts, pairs, missed }: Finding): NotesLeftOut | undefined {
  const known = dropouts.flatMap(({ landing }) => (landing === null || "unmeasured" in landing ? [] : [landing]));
  if (known.length === 0) return undefined;
  const out = known.filter((landing) => "leftOut" in landing).length;
  const notes = pairs.length + missed.length;
  return [out, known.length, Math.max(0, missed.length - out), Math.max(0, notes - known.length)];
}

function landingMsOf({ landing }: DropoutFinding): number | undefined {
  return landing !== null && "ms" in landing ? landing.ms : undefined;
}

function kept<Key extends keyof Measured>(key: Key, value: unknown): { readonly [K in Key]?: number } {
  return typeof value === "number" ? ({ [key]: rounded(value, DECIMALS) } as { [K in Key]: number }) : {};
}

/** Index of the measured value with the largest magnitude; `undefined` when no value is measured. */
function furthest(values: readonly unknown[]): number | undefined {
  let found: number | undefined;
  values.forEach((value, i) => {
    if (typeof value !== "number") return;
    if (found === undefined || Math.abs(value) > Math.abs(values[found] as number)) found = i;
  });
  return found;
}

function rounded(value: number, decimals: number): number {
  // JSON has no -0: adding 0 turns it into 0.
  return Number(value.toFixed(decimals)) + 0;
}
