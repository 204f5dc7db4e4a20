import type { Tolerance } from "../drill/index.js";
import { type StayTake, silencesOf } from "../progress/index.js";
import type { Sticking } from "../schema/index.js";
import { median } from "../take/index.js";

/** Share of takes that must lie on one side for that side to be named. Our choice. */
const ONE_SIDED = 0.75;

/** The cause for which one take was not clean. */
interface Cause {
  readonly on: Sticking["on"];
  /** Length of the silence. */
  readonly length?: string | undefined;
  readonly reason?: string | undefined;
  /** The figure, milliseconds. */
  readonly ms?: number | undefined;
  /** With a landing: the drift before it, milliseconds, where that is known. */
  readonly driftMs?: number | undefined;
}

/** Causes for which takes were not clean, those of most takes first. Each take counts once. Clean takes are passed over; only clean takes: none. */
export function failureCauses(takes: readonly StayTake[], tolerance: Tolerance): readonly Sticking[] {
  const groups = new Map<string, { readonly first: Cause; readonly all: Cause[] }>();
  for (const take of takes) {
    if (take.verdict === "within") continue;
    const cause = take.verdict === "unclear" ? unclearCause(take) : beyondCause(take, tolerance);
    const key = JSON.stringify([cause.on, cause.length, cause.reason]);
    const group = groups.get(key) ?? { first: cause, all: [] };
    group.all.push(cause);
    groups.set(key, group);
  }
  return [...groups.values()].map(summed).sort((a, b) => b.takes - a.takes || (keyOf(a) < keyOf(b) ? -1 : 1));
}

function unclearCause(take: StayTake): Cause {
  const { silences = [] } = silencesOf(take) ?? {};
  const isMeasured =
    silences.every(({ driftMs }) => driftMs !== undefined) && take.measured?.accompaniedMs !== undefined;
  return { on: "unclear", reason: take.reasons?.[0] ?? (isMeasured ? "TOO_CLOSE" : "NOT_MEASURED") };
}

interface Weighed extends Cause {
  /** The figure as a multiple of its tolerance. */
  readonly times: number;
}

/**
 * Cause of a take beyond tolerance: drift, when it is outside its tolerance, because what comes after follows from it; otherwise the figure
 * that is the largest multiple of its tolerance.
 */
function beyondCause(take: StayTake, tolerance: Tolerance): Cause {
  const { length: said, told, silences = [] } = silencesOf(take) ?? {};
  if (take.reasons?.includes("SLIPPED") === true) return { on: "slip", length: said };
  const figures: Weighed[] = [];
  const weigh = (value: number | undefined, limit: number | undefined, cause: Cause): void => {
    if (value !== undefined && limit !== undefined) figures.push({ ...cause, times: Math.abs(value) / limit });
  };
  const { drift } = tolerance;
  for (const { length, driftMs, driftPercent, landingMs } of silences) {
    const cause = { on: "drift", length, ms: driftMs } as const;
    if (drift !== undefined && "percent" in drift) weigh(driftPercent, drift.percent, cause);
    if (drift !== undefined && "ms" in drift) weigh(driftMs, drift.ms, cause);
    const before = told === "each silence" ? driftMs : undefined;
    weigh(landingMs, tolerance.landing, { on: "landing", length, ms: landingMs, driftMs: before });
  }
  const steadiness = take.measured?.accompaniedMs;
  weigh(steadiness, tolerance.steadiness, { on: "steadiness", ms: steadiness });
  const drifted = worst(figures.filter(({ on }) => on === "drift"));
  const found = drifted !== undefined && drifted.times > 1 ? drifted : worst(figures);
  return found ?? { on: "not kept", length: said };
}

function worst(figures: readonly Weighed[]): Weighed | undefined {
  return figures.reduce<Weighed | undefined>(
    (most, each) => (most === undefined || each.times > most.times ? each : most),
    undefined,
  );
}

interface Group {
  readonly first: Cause;
  readonly all: readonly Cause[];
}

function summed({ first: { on, length, reason }, all }: Group): Sticking {
  const values = all.flatMap(({ ms }) => (ms === undefined ? [] : [ms]));
  const medianMs = medianOf(values);
  const driftMs = medianOf(all.flatMap((each) => (each.driftMs === undefined ? [] : [each.driftMs])));
  return {
    on,
    takes: all.length,
    ...(length === undefined ? {} : { length }),
    // Steadiness has a size, but no side.
    ...(values.length === 0 || on === "steadiness" ? {} : { side: sideOf(values) }),
    ...(medianMs === undefined ? {} : { medianMs }),
    ...(driftMs === undefined ? {} : { driftMs }),
    ...(reason === undefined ? {} : { reason }),
  };
}

/** Median in whole milliseconds; `undefined` without values. */
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
