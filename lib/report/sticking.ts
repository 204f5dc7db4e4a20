import type { Tolerance } from "../drill/index.js";
import { silencesOf } from "../progress/index.js";
import type { Sticking, TakeAssessed } from "../schema/index.js";
import { openTally, spreadOf, tally } from "./tally.js";

/** Share of takes that must lie on one side for it to be called the student's: our choice. */
const ONE_SIDED = 0.75;

/** What one take failed on. */
interface Failing {
  readonly on: Sticking["on"];
  readonly length?: string | undefined;
  readonly reason?: string | undefined;
  /** The figure, ms. */
  readonly ms?: number | undefined;
}

/**
 * What takes that were not clean failed on, most takes first: each take counts once, for the figure that was furthest outside its tolerance. Clean
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

function doubtOf({ reasons, rung, silences, measured }: TakeAssessed): Failing {
  const { length } = silencesOf({ rung, ...(silences && { silences }), ...(measured && { measured }) }) ?? {};
  return { on: "unclear", length, reason: reasons?.[0] };
}

/** The figure of a take beyond tolerance that lies furthest outside, as a multiple of what is allowed. */
function failingOf(take: TakeAssessed, tolerance: Tolerance): Failing {
  const { length, silences = [] } = silencesOf(take) ?? {};
  if (take.reasons?.includes("SLIPPED") === true) return { on: "slip", length };
  const figures: (Failing & { readonly times: number })[] = [];
  const weigh = (value: number | undefined, limit: number | undefined, failing: Failing): void => {
    if (value !== undefined && limit !== undefined) figures.push({ ...failing, times: Math.abs(value) / limit });
  };
  const { drift } = tolerance;
  for (const { driftMs, driftPercent, reentryMs } of silences) {
    const failing = { on: "drift", length, ms: driftMs } as const;
    if (drift !== undefined && "percent" in drift) weigh(driftPercent, drift.percent, failing);
    if (drift !== undefined && "ms" in drift) weigh(driftMs, drift.ms, failing);
    weigh(reentryMs, tolerance.reentry, { on: "re-entry", length, ms: reentryMs });
  }
  const jitter = take.measured?.accompaniedMs;
  weigh(jitter, tolerance.steadiness, { on: "steadiness", ms: jitter });
  return (
    figures.reduce<(typeof figures)[number] | undefined>(
      (worst, each) => (worst === undefined || each.times > worst.times ? each : worst),
      undefined,
    ) ?? { on: "not kept", length }
  );
}

function summed({
  first: { on, length, reason },
  all,
}: {
  readonly first: Failing;
  readonly all: readonly Failing[];
}): Sticking {
  const values = all.flatMap(({ ms }) => (ms === undefined ? [] : [ms]));
  const figures = openTally(1);
  for (const value of values) tally(figures, value);
  const medianMs = spreadOf(figures)?.median;
  return {
    on,
    takes: all.length,
    ...(length === undefined ? {} : { length }),
    // Jitter has a size, but no side.
    ...(values.length === 0 || on === "steadiness" ? {} : { side: sideOf(values) }),
    ...(medianMs === undefined ? {} : { medianMs }),
    ...(reason === undefined ? {} : { reason }),
  };
}

function sideOf(values: readonly number[]): NonNullable<Sticking["side"]> {
  const early = values.filter((value) => value < 0).length;
  if (early >= ONE_SIDED * values.length) return "early";
  return values.length - early >= ONE_SIDED * values.length ? "late" : "both";
}

function keyOf({ on, length = "", reason = "" }: Sticking): string {
  return `${on}/${length}/${reason}`;
}
