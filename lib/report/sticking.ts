import type { Tolerance } from "../drill/index.js";
import { silencesOf } from "../progress/index.js";
import type { Sticking, TakeAssessed } from "../schema/index.js";
import { median } from "../take/index.js";

/** Share of takes that must lie on one side for it to be called the student's: our choice. */
const ONE_SIDED = 0.75;

/** What one take failed on. */
interface Failing {
  readonly on: Sticking["on"];
  readonly length?: string | undefined;
  readonly reason?: string | undefined;
  /** The figure, ms. */
  readonly ms?: number | undefined;
  /** Of a re-entry: the drift before it, where that is known. */
  readonly driftMs?: number | undefined;
}

/**
 * What takes that were not clean failed on, most takes first; each take counts once. Clean
 * takes are passed over; none other: none.
 */
export function stickingOn(takes: readonly TakeAssessed[], tolerance: Tolerance): readonly Sticking[] {
  const groups = new Map<string, { readonly first: Failing; readonly all: Failing[] }>();
  for (const take of takes) {
    if (take.verdict === "within") continue;
    const failing = take.verdict === "unclear" ? doubtOf(take) : failingOf(take, tolerance);
    const key = JSON.stringify([failing.on, failing.length, failing.reason]);
    const group = groups.get(key) ?? { first: failing, all: [] };
    group.all.push(failing);
    groups.set(key, group);
  }
  return [...groups.values()].map(summed).sort((a, b) => b.takes - a.takes || (keyOf(a) < keyOf(b) ? -1 : 1));
}

function doubtOf(take: TakeAssessed): Failing {
  const { silences = [] } = silencesOf(take) ?? {};
  const isMeasured =
    silences.every(({ driftMs }) => driftMs !== undefined) && take.measured?.accompaniedMs !== undefined;
  return { on: "unclear", reason: take.reasons?.[0] ?? (isMeasured ? "TOO_CLOSE" : "NOT_MEASURED") };
}

interface Weighed extends Failing {
  /** How many times the tolerance. */
  readonly times: number;
}

/**
 * What a take beyond tolerance failed on: drift, when it left its tolerance, as what comes after follows from it; otherwise the figure furthest
 * outside, as a multiple of its tolerance.
 */
function failingOf(take: TakeAssessed, tolerance: Tolerance): Failing {
  const { length, told, silences = [] } = silencesOf(take) ?? {};
  if (take.reasons?.includes("SLIPPED") === true) return { on: "slip", length };
  const figures: Weighed[] = [];
  const weigh = (value: number | undefined, limit: number | undefined, failing: Failing): void => {
    if (value !== undefined && limit !== undefined) figures.push({ ...failing, times: Math.abs(value) / limit });
  };
  const { drift } = tolerance;
  for (const { driftMs, driftPercent, reentryMs } of silences) {
    const failing = { on: "drift", length, ms: driftMs } as const;
    if (drift !== undefined && "percent" in drift) weigh(driftPercent, drift.percent, failing);
    if (drift !== undefined && "ms" in drift) weigh(driftMs, drift.ms, failing);
    const before = told === "each silence" ? driftMs : undefined;
    weigh(reentryMs, tolerance.reentry, { on: "re-entry", length, ms: reentryMs, driftMs: before });
  }
  const jitter = take.measured?.accompaniedMs;
  weigh(jitter, tolerance.steadiness, { on: "steadiness", ms: jitter });
  const drifted = worst(figures.filter(({ on }) => on === "drift"));
  const found = drifted !== undefined && drifted.times > 1 ? drifted : worst(figures);
  return found ?? { on: "not kept", length };
}

function worst(figures: readonly Weighed[]): Weighed | undefined {
  return figures.reduce<Weighed | undefined>(
    (most, each) => (most === undefined || each.times > most.times ? each : most),
    undefined,
  );
}

interface Group {
  readonly first: Failing;
  readonly all: readonly Failing[];
}

function summed({ first: { on, length, reason }, all }: Group): Sticking {
  const values = all.flatMap(({ ms }) => (ms === undefined ? [] : [ms]));
  const medianMs = medianOf(values);
  const driftMs = medianOf(all.flatMap((each) => (each.driftMs === undefined ? [] : [each.driftMs])));
  return {
    on,
    takes: all.length,
    ...(length === undefined ? {} : { length }),
    // Jitter has a size, but no side.
    ...(values.length === 0 || on === "steadiness" ? {} : { side: sideOf(values) }),
    ...(medianMs === undefined ? {} : { medianMs }),
    ...(driftMs === undefined ? {} : { driftMs }),
    ...(reason === undefined ? {} : { reason }),
  };
}

/** In whole milliseconds; `undefined` of no values. */
function medianOf(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : Math.round(median(values)) + 0;
}

function sideOf(values: readonly number[]): NonNullable<Sticking["side"]> {
  const early = values.filter((value) => value < 0).length;
  if (early >= ONE_SIDED * values.length) return "early";
  return values.length - early >= ONE_SIDED * values.length ? "late" : "both";
}

function keyOf({ on, length = "", reason = "" }: Sticking): string {
  return `${on}/${length}/${reason}`;
}
